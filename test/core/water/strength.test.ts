import { describe, expect, it } from 'vitest';
import { WaterError } from '../../../src/core/water/errors.ts';
import {
  dryChlorineMmolPerGram,
  fullChlorinePercent,
  hydrochloricDensity,
  hydrochloricMmolPerMl,
  hypochloriteMmolPerMl,
  mmolPerGram,
} from '../../../src/core/water/strength.ts';
import { readTable } from '../../reference/read-table.ts';

const fact = (id: string) => Number(readTable('dose-facts.csv').find((row) => row['id'] === id)!['value']);

describe('hydrochloric acid', () => {
  it('31.45 % is 20 °Bé, 1.16 at 60 °F (D022): 0.4 % denser than at 20 °C', () => {
    expect(hydrochloricDensity(31.45) / fact('D022')).toBeGreaterThan(0.995);
    expect(hydrochloricDensity(31.45)).toBeLessThan(fact('D022'));
    expect(Math.abs(hydrochloricMmolPerMl(31.45) / fact('D023') - 1)).toBeLessThan(0.005);
  });

  it.each([
    // Density of HCl(aq) at 10 and 25 °C by molality, advancedthermo.com, read; at 20 °C in proportion.
    [1, 1.01767, 1.0142],
    [3, 1.04968, 1.045],
    [6, 1.09171, 1.08485],
  ])('at %d mol/kg agrees with another table within 0.1 %%', (molality, at10, at25) => {
    const grams = molality * 36.458;
    const at20 = at10 + (2 / 3) * (at25 - at10);
    expect(hydrochloricDensity((100 * grams) / (1000 + grams)) / at20).toBeCloseTo(1, 2);
    expect(Math.abs(hydrochloricDensity((100 * grams) / (1000 + grams)) / at20 - 1)).toBeLessThan(0.001);
  });

  it.each([
    // Assumed densities of the dose facts (from memory there): 14.5 % 1.07, 33 % 1.165.
    [14.5, 'D026', 29.5735 / 37_854.118],
    [33, 'D027', 1 / 1000],
  ])('%d %%: mL for 10 mg/L of alkalinity (%s)', (percent, id, millilitresPerLitre) => {
    const found = 0.199828 / hydrochloricMmolPerMl(percent);
    expect(Math.abs(found / (fact(id) * millilitresPerLitre) - 1)).toBeLessThan(0.005);
  });

  it.each([0, -1, 38.1, 300, Number.NaN])('refuses %d %%', (percent) => {
    expect(() => hydrochloricMmolPerMl(percent)).toThrow(new WaterError('bad-strength'));
  });
});

describe('liquid hypochlorite', () => {
  it.each([
    [12.5, 'D065'],
    [10, 'D068'],
  ])('%d trade percent (%s)', (tradePercent, id) => {
    expect(hypochloriteMmolPerMl({ tradePercent }) * 70.9).toBeCloseTo(fact(id), 9);
  });

  it('6 % NaOCl by mass is 61.7 g of chlorine a litre (D073)', () => {
    expect(hypochloriteMmolPerMl({ massPercent: 6 }) * 70.9).toBeCloseTo(fact('D073'), 1);
  });

  it.each([{ tradePercent: 0 }, { tradePercent: 300 }, { massPercent: 0 }, { massPercent: 40 }])(
    'refuses %o',
    (strength) => expect(() => hypochloriteMmolPerMl(strength)).toThrow(new WaterError('bad-strength')),
  );
});

describe('dry products', () => {
  it.each([
    ['trichlor', 'D045'],
    ['dichlor', 'D048'],
    ['dichlor-dihydrate', 'D051'],
    ['calcium-hypochlorite', 'D054'],
  ] as const)('%s holds %s % of available chlorine when pure', (reagent, id) => {
    expect(fullChlorinePercent(reagent)).toBeCloseTo(fact(id), 2);
  });

  it('by available chlorine: 65 % calcium hypochlorite, 1 mg/L from 1.54 g/m³ (D056)', () => {
    const gramsPerCubicMetre = 1000 / 70.9 / 2 / dryChlorineMmolPerGram('calcium-hypochlorite', 65);
    expect(gramsPerCubicMetre).toBeCloseTo(fact('D056'), 3);
  });

  it('77 % flakes (D035)', () => {
    expect((1000 * 0.099914) / mmolPerGram('calcium-chloride', 77)).toBeCloseTo(fact('D035'), 2);
  });

  it.each([0, -5, 101, 300, Number.NaN])('refuses a purity of %d %%', (percent) => {
    expect(() => mmolPerGram('soda-ash', percent)).toThrow(new WaterError('bad-strength'));
    expect(() => dryChlorineMmolPerGram('trichlor', percent)).toThrow(new WaterError('bad-strength'));
  });
});

describe('the strongest that there is', () => {
  it('is taken', () => {
    // 38 % of 1.189 g/mL (Perry's) at 36.458 g/mol.
    expect(hydrochloricMmolPerMl(38)).toBeCloseTo(12.393, 3);
    expect(hypochloriteMmolPerMl({ tradePercent: 20 }) * 70.9).toBeCloseTo(200, 9);
    expect(hypochloriteMmolPerMl({ massPercent: 16 })).toBeGreaterThan(hypochloriteMmolPerMl({ massPercent: 15.9 }));
    expect(mmolPerGram('salt', 100) * 58.44).toBeCloseTo(1000, 1);
  });

  it('a little more on a label than the pure substance holds is its rounding, more is a slip', () => {
    const full = fullChlorinePercent('trichlor');
    expect(dryChlorineMmolPerGram('trichlor', full * 1.001)).toBeGreaterThan(dryChlorineMmolPerGram('trichlor', full));
    expect(() => dryChlorineMmolPerGram('trichlor', full * 1.002)).toThrow(new WaterError('bad-strength'));
  });
});
