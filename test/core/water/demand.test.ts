import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { reagentToPh, reagentToReading, strongAcidToPh } from '../../../src/core/water/demand.ts';
import { phWithAir } from '../../../src/core/water/equilibrium.ts';
import { WaterError } from '../../../src/core/water/errors.ts';
import { add, addReagent } from '../../../src/core/water/moves/add.ts';
import { REAGENTS, SODIUM_HYDROXIDE, type Reagent } from '../../../src/core/water/moves/reagents.ts';
import { saturationIndex } from '../../../src/core/water/saturation.ts';
import { waterOf } from '../../../src/core/water/water.ts';
import { readTable } from '../../reference/read-table.ts';
import { waterOfRow } from './phreeqc.ts';
import { anyWater, runs } from './waters.ts';

/** USGS PHREEQC 3.8.8: see test/reference/SOURCES.md. */
const rows = readTable('phreeqc-acid-demand.csv');
const toTarget = rows.filter((row) => row['kind']!.endsWith('to target pH'));
const additions = rows.filter((row) => row['kind'] === 'addition');
const open = rows.filter((row) => row['kind']!.startsWith('open'));

const ADDED: Record<string, Reagent> = {
  HCl: REAGENTS['hydrochloric-acid'],
  NaHSO4: REAGENTS['sodium-bisulfate'],
  NaHCO3: REAGENTS['sodium-bicarbonate'],
  Na2CO3: REAGENTS['soda-ash'],
  CaCl2: REAGENTS['calcium-chloride'],
  NaOH: SODIUM_HYDROXIDE,
  CO2: { gramsPerMole: 44.009, brings: { inorganicCarbon: 1 } },
};

describe('demand against PHREEQC 3.8.8', () => {
  it('covers every row', () => {
    expect(rows).toHaveLength(68);
    expect(toTarget.length + additions.length + open.length).toBe(68);
  });

  it.each(toTarget)('$id: $reagent from pH $pH_start to $pH_end', (row) => {
    const water = waterOfRow(row);
    const sign = row['reagent'] === 'NaOH' ? -1 : 1;
    const dose = Number(row['dose_mmol_per_kgw']);
    const found = sign * strongAcidToPh(water, Number(row['pH_end']));
    expect(Math.abs(found - dose)).toBeLessThanOrEqual(Math.max(0.03 * dose, 0.005));
    // The end as PHREEQC has it, from PHREEQC's own dose.
    const after = addReagent(water, ADDED[row['reagent']!]!, dose);
    expect(Math.abs(after.ph - Number(row['pH_end']))).toBeLessThanOrEqual(0.02);
    expect(Math.abs(after.totalAlkalinity - Number(row['TA_end_mgL_CaCO3']))).toBeLessThan(0.02);
    expect(Math.abs(saturationIndex(after) - Number(row['SI_calcite_end']))).toBeLessThanOrEqual(0.05);
  });

  it.each(additions)('$id: $dose_mmol_per_kgw mmol of $reagent', (row) => {
    const after = addReagent(waterOfRow(row), ADDED[row['reagent']!]!, Number(row['dose_mmol_per_kgw']));
    expect(Math.abs(after.ph - Number(row['pH_end']))).toBeLessThanOrEqual(0.02);
    expect(Math.abs(after.totalAlkalinity - Number(row['TA_end_mgL_CaCO3']))).toBeLessThan(0.02);
    expect(Math.abs(saturationIndex(after) - Number(row['SI_calcite_end']))).toBeLessThanOrEqual(0.05);
  });

  it.each(additions.filter((row) => row['reagent'] === 'NaHCO3'))('$id: bicarbonate to $TA_end_mgL_CaCO3', (row) => {
    const dose = Number(row['dose_mmol_per_kgw']);
    const found = reagentToReading(
      waterOfRow(row),
      'sodium-bicarbonate',
      'totalAlkalinity',
      Number(row['TA_end_mgL_CaCO3']),
    );
    expect(Math.abs(found - dose)).toBeLessThanOrEqual(Math.max(0.03 * dose, 0.005));
  });

  it.each(open)('$id: the pH with air at alkalinity $TA_start_mgL_CaCO3', (row) => {
    expect(Math.abs(phWithAir(waterOfRow(row), 10 ** -3.38) - Number(row['pH_end']))).toBeLessThanOrEqual(0.02);
  });
});

describe('solving, then predicting', () => {
  it('strong acid or base ends at the target', () => {
    fc.assert(
      fc.property(anyWater, fc.double({ min: 6.4, max: 9, noNaN: true }), (water, target) => {
        const acid = strongAcidToPh(water, target);
        const after = acid >= 0 ? add(water, 'hydrochloric-acid', acid) : addReagent(water, SODIUM_HYDROXIDE, -acid);
        expect(after.ph).toBeCloseTo(target, 6);
        expect(acid > 0).toBe(target < water.ph);
      }),
      runs(),
    );
  });

  it('bisulfate, soda ash and borax end at the target', () => {
    fc.assert(
      fc.property(anyWater, fc.double({ min: 0.02, max: 0.6, noNaN: true }), (water, change) => {
        for (const [reagent, target] of [
          ['sodium-bisulfate', water.ph - change],
          ['soda-ash', Math.min(8.6, water.ph + change)],
          ['borax', Math.min(8.2, water.ph + change)],
        ] as const) {
          if (reagent !== 'sodium-bisulfate' && target <= water.ph) continue;
          expect(add(water, reagent, reagentToPh(water, reagent, target)).ph).toBeCloseTo(target, 6);
        }
      }),
      runs(100),
    );
  });
});

describe('nothing to do', () => {
  it('takes nothing', () => {
    const water = waterOf({ ph: 7.5, totalAlkalinity: 80, calciumHardness: 250 });
    expect(strongAcidToPh(water, 7.5)).toBe(0);
    expect(reagentToPh(water, 'soda-ash', 7.5)).toBe(0);
    expect(reagentToReading(water, 'salt', 'salt', 0)).toBe(0);
  });
});

describe('what cannot be reached', () => {
  const water = waterOf({ ph: 7.5, totalAlkalinity: 80, calciumHardness: 250 });

  it.each([
    ['acid raises no pH', () => reagentToPh(water, 'hydrochloric-acid', 7.8)],
    ['soda ash lowers none', () => reagentToPh(water, 'soda-ash', 7.2)],
    ['bicarbonate stops short of 8.6', () => reagentToPh(water, 'sodium-bicarbonate', 8.6)],
    ['salt moves no alkalinity', () => reagentToReading(water, 'salt', 'totalAlkalinity', 100)],
    ['acid raises no alkalinity', () => reagentToReading(water, 'hydrochloric-acid', 'totalAlkalinity', 100)],
  ])('%s', (_name, attempt) => {
    expect(attempt).toThrow(new WaterError('out-of-reach'));
  });
});
