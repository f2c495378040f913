import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { activeChlorine, chlorineShares } from '../../../src/core/water/chlorine.ts';
import { MODEL_1974, MODEL_2019 } from '../../../src/core/water/cyanurates.ts';
import { readTable, type Row } from '../../reference/read-table.ts';
import { anyWater, runs } from './waters.ts';

/** O'Brien, Morris & Butler 1974 and Wahman & Alexander 2019: see test/reference/SOURCES.md. */
const rows = readTable('chlorine-cyanurate.csv');
const rows1974 = rows.filter((row) => row['model'] === 'OBrien1974_25C');
const rows2019 = rows.filter((row) => row['model'] === 'Wahman2019_simple');

const waterOfRow = (row: Row) => ({
  ph: Number(row['pH']),
  temperatureC: Number(row['temp_C']),
  freeChlorine: Number(row['free_chlorine_mgL_Cl2']),
  cyanuricAcid: Number(row['cya_mgL']),
});
const off = (found: number, printed: string | undefined) => Math.abs(found - Number(printed)) / Number(printed);

describe('chlorine and cyanurate against the published models', () => {
  it('covers every row', () => {
    expect(rows1974).toHaveLength(392);
    expect(rows2019).toHaveLength(96);
    expect(rows1974.length + rows2019.length).toBe(rows.length);
  });

  it('HOCl by the constants of 1974 is within 1 %', () => {
    for (const row of rows1974) {
      const shares = chlorineShares(waterOfRow(row), MODEL_1974);
      expect(off(shares.hypochlorousAcid, row['HOCl_mgL_Cl2'])).toBeLessThan(0.01);
      expect(off(shares.hypochlorousAcid, row['phreeqc_HOCl_mgL_Cl2'])).toBeLessThan(0.01);
      expect(off(shares.hypochlorite, row['OCl_mgL_Cl2'])).toBeLessThan(0.01);
      for (const [name, column] of [
        ['HClCy-', 'HClCy_mgL_Cl2'],
        ['Cl2Cy-', 'Cl2Cy_mgL_Cl2'],
        ['H2ClCy', 'H2ClCy_mgL_Cl2'],
      ] as const) {
        if (row['cya_mgL'] === '0') expect(shares.boundBy[name]).toBe(0);
        else expect(off(shares.boundBy[name]!, row[column])).toBeLessThan(0.01);
      }
    }
  });

  it('HOCl by the constants of 2019 is within 1 %, 15-35 °C', () => {
    for (const row of rows2019) {
      expect(off(chlorineShares(waterOfRow(row), MODEL_2019).hypochlorousAcid, row['HOCl_mgL_Cl2'])).toBeLessThan(0.01);
    }
    for (const row of rows1974) {
      const found = chlorineShares(waterOfRow(row), MODEL_2019).hypochlorousAcid;
      expect(off(found, row['wahman2019_25C_HOCl_mgL_Cl2'])).toBeLessThan(0.01);
    }
  });

  it('the later constants give 12-36 % less where there is stabilizer, as the two columns of the table do', () => {
    for (const row of rows1974.filter((each) => each['cya_mgL'] !== '0')) {
      const { by1974, by2019, low, high } = activeChlorine(waterOfRow(row));
      expect(1 - by2019 / by1974).toBeGreaterThan(0.11);
      expect(1 - by2019 / by1974).toBeLessThan(0.37);
      expect([low, high]).toEqual([by2019, by1974]);
    }
  });
});

describe('shares of the chlorine', () => {
  it('add up to what was measured, whatever the water', () => {
    fc.assert(
      fc.property(anyWater, fc.constantFrom(MODEL_1974, MODEL_2019), (water, model) => {
        const { hypochlorousAcid, hypochlorite, bound, boundBy } = chlorineShares(water, model);
        expect(hypochlorousAcid + hypochlorite + bound).toBeCloseTo(water.freeChlorine, 9);
        expect(Object.values(boundBy).reduce((sum, part) => sum + part, 0)).toBeCloseTo(bound, 9);
        expect(Math.min(hypochlorousAcid, hypochlorite, bound)).toBeGreaterThanOrEqual(0);
      }),
      runs(),
    );
  });

  it('fall as stabilizer rises', () => {
    fc.assert(
      fc.property(anyWater, fc.double({ min: 1, max: 100, noNaN: true }), (water, more) => {
        if (water.freeChlorine < 0.01) return;
        const richer = { ...water, cyanuricAcid: water.cyanuricAcid + more };
        for (const set of ['by1974', 'by2019'] as const) {
          expect(activeChlorine(richer)[set]).toBeLessThan(activeChlorine(water)[set]);
        }
      }),
      runs(),
    );
  });

  it('fall as the pH rises without stabilizer; with it there is little to see (both from the table)', () => {
    const at = (ph: number, cyanuricAcid: number) =>
      activeChlorine({ ph, cyanuricAcid, temperatureC: 25, freeChlorine: 3 }).by1974;
    expect(at(8, 0) / at(7, 0)).toBeLessThan(0.35);
    expect(at(8, 50) / at(7, 50)).toBeGreaterThan(0.45);
  });

  it('are nothing where there is no chlorine', () => {
    expect(activeChlorine({ ph: 7.5, temperatureC: 25, freeChlorine: 0, cyanuricAcid: 50 })).toEqual({
      by1974: 0,
      by2019: 0,
      low: 0,
      high: 0,
      share: 0,
    });
  });
});
