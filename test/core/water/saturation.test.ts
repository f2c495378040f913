import { describe, expect, it } from 'vitest';
import { speciate } from '../../../src/core/water/equilibrium.ts';
import { saturationIndex } from '../../../src/core/water/saturation.ts';
import { waterOf } from '../../../src/core/water/water.ts';
import { readTable } from '../../reference/read-table.ts';
import { waterOfRow } from './phreeqc.ts';

/** USGS PHREEQC 3.8.8 with phreeqc.dat: see test/reference/SOURCES.md. */
const rows = readTable('phreeqc-saturation.csv');

describe('the saturation index against PHREEQC 3.8.8', () => {
  it('has all 80 rows', () => expect(rows).toHaveLength(80));

  it.each(rows)('$id ($group) is within 0.05', (row) => {
    expect(Math.abs(saturationIndex(waterOfRow(row)) - Number(row['SI_phreeqc_3_8_8']))).toBeLessThanOrEqual(0.05);
  });

  it.each(rows)('$id: carbon, alkalinity parts and ionic strength', (row) => {
    const found = speciate(waterOfRow(row));
    expect((1000 * found.inorganicCarbon) / Number(row['total_inorganic_carbon_mmolL'])).toBeCloseTo(1, 2);
    expect(found.ionicStrength / Number(row['ionic_strength_M'])).toBeCloseTo(1, 2);
    const perEquivalent = 50_043;
    expect(Math.abs(perEquivalent * found.cyanurateAlkalinity - Number(row['cyanurate_alk_mgL_CaCO3']))).toBeLessThan(
      0.25,
    );
    expect(Math.abs(perEquivalent * found.borateAlkalinity - Number(row['borate_alk_mgL_CaCO3']))).toBeLessThan(0.25);
  });
});

describe('the saturation index', () => {
  it('is -Infinity without calcium: such water etches without end', () => {
    expect(saturationIndex(waterOf({ ph: 7.5, totalAlkalinity: 80, calciumHardness: 0 }))).toBe(-Infinity);
  });
});
