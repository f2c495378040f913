import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { measured } from './measured.ts';
import { measureHours, measureLiquid, measureSolid, measureWater } from '../../../src/core/water/measure.ts';

const text = (measure: ReturnType<typeof measureLiquid>) =>
  measure.map(({ value, unit }) => `${value} ${unit}`).join(' ');

describe('amounts as a person measures', () => {
  it.each([
    [37, '37 mL', '1.25 fl oz'],
    [352, '350 mL', '12 fl oz'],
    [357, '360 mL', '12 fl oz'],
    [994, '990 mL', '34 fl oz'],
    [998, '1 L', '34 fl oz'],
    [1_234, '1.25 L', '42 fl oz'],
    [3_790, '3.8 L', '1 gal'],
    [4_400, '4.4 L', '1 gal 20 fl oz'],
    [11_800, '12 L', '3 gal 16 fl oz'],
  ])('%d mL of a liquid', (millilitres, metric, us) => {
    expect(text(measureLiquid(millilitres, 'metric'))).toBe(metric);
    expect(text(measureLiquid(millilitres, 'us'))).toBe(us);
  });

  it.each([
    [12.4, '12 g', '0.4 oz'],
    [198, '200 g', '7 oz'],
    [212, '210 g', '7.5 oz'],
    [452, '450 g', '1 lb'],
    [1_472, '1.45 kg', '3 lb 4 oz'],
    [12_700, '12.5 kg', '28 lb'],
    [72_575, '73 kg', '160 lb'],
  ])('%d g of a solid', (grams, metric, us) => {
    expect(text(measureSolid(grams, 'metric'))).toBe(metric);
    expect(text(measureSolid(grams, 'us'))).toBe(us);
  });

  it('says when there is too little to measure', () => {
    expect(measureLiquid(0.2, 'metric')).toEqual([]);
    expect(measureSolid(0, 'us')).toEqual([]);
  });

  it('never rounds 15 g or mL and more by over a tenth, in either system', () => {
    fc.assert(
      fc.property(fc.double({ min: 15, max: 200_000, noNaN: true }), (amount) => {
        for (const measure of [measureLiquid, measureSolid]) {
          for (const system of ['metric', 'us'] as const) {
            expect(Math.abs(measured(measure(amount, system)) / amount - 1)).toBeLessThanOrEqual(0.1 + 1e-9);
          }
        }
      }),
      { seed: 41, numRuns: 500 },
    );
  });

  it('never shrinks when the amount grows', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1e5, noNaN: true }),
        fc.double({ min: 0, max: 1e4, noNaN: true }),
        (a, b) => {
          expect(measured(measureSolid(a + b, 'us'))).toBeGreaterThanOrEqual(measured(measureSolid(a, 'us')) - 1e-6);
          expect(measured(measureLiquid(a + b, 'metric'))).toBeGreaterThanOrEqual(
            measured(measureLiquid(a, 'metric')) - 1e-6,
          );
        },
      ),
      { seed: 42, numRuns: 300 },
    );
  });
});

describe('water and hours', () => {
  it('measures water to two figures', () => {
    expect(measureWater(12_340, 'metric')).toEqual({ value: 12_000, unit: 'L' });
    expect(measureWater(12_340, 'us')).toEqual({ value: 3_300, unit: 'gal' });
    expect(measureWater(0, 'us')).toEqual({ value: 0, unit: 'gal' });
  });

  it('measures hours to the quarter', () => {
    expect(measureHours(2.3335)).toBe(2.25);
    expect(measureHours(17.8)).toBe(18);
  });
});
