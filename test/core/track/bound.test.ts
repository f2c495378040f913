import { describe, expect, it } from 'vitest';
import { normalDensity, normalShare } from '../../../src/core/math/normal.ts';
import { numberForBound } from '../../../src/core/track/bound.ts';

/** Mean and variance of a normal times the chance that the test says so, by summing over a fine grid. */
function summed(mean: number, variance: number, bound: number, deviation: number, side: 'above' | 'below') {
  const sums = [0, 0, 0];
  const spread = Math.sqrt(variance);
  for (let z = -9; z <= 9; z += 0.001) {
    const x = mean + z * spread;
    const chance = normalShare(((side === 'above' ? 1 : -1) * (x - bound)) / deviation);
    sums.forEach((_, power) => (sums[power]! += normalDensity(z) * chance * x ** power));
  }
  const first = sums[1]! / sums[0]!;
  return { mean: first, variance: sums[2]! / sums[0]! - first ** 2 };
}

describe('a test that only says more than or less than', () => {
  it.each([
    [5, 4, 8, 1, 'above'],
    [9, 4, 8, 1, 'above'],
    [8, 1, 8, 0.3, 'above'],
    [60, 400, 30, 10, 'below'],
    [20, 400, 30, 10, 'below'],
  ] as const)(
    'moves %s +- sqrt %s at %s (%s, %s) as the sum over a grid does',
    (mean, variance, bound, deviation, side) => {
      const number = numberForBound(mean, variance, bound, deviation, side)!;
      const precision = 1 / variance + 1 / number.variance;
      const after = { mean: (mean / variance + number.value / number.variance) / precision, variance: 1 / precision };
      const expected = summed(mean, variance, bound, deviation, side);
      expect(after.mean).toBeCloseTo(expected.mean, 4);
      expect(after.variance).toBeCloseTo(expected.variance, 3);
    },
  );

  it('says nothing where the estimate lies well beyond it', () => {
    expect(numberForBound(20, 1, 8, 1, 'above')).toBeNull();
  });

  it('stays finite where the estimate lies far on the other side', () => {
    const number = numberForBound(0, 1, 200, 1, 'above')!;
    expect(Number.isFinite(number.value)).toBe(true);
    expect(number.variance).toBeGreaterThan(0);
  });
});

describe('the normal distribution', () => {
  // Abramowitz & Stegun, table 26.1.
  it.each([
    [0, 0.5],
    [1, 0.841344746],
    [1.96, 0.975002105],
    [3, 0.998650102],
    [-2, 0.022750132],
  ])('has the share below %s', (z, share) => {
    expect(normalShare(z)).toBeCloseTo(share, 7);
  });
});
