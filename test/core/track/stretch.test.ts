import { describe, expect, it } from 'vitest';
import { stretchOf } from '../../../src/core/track/stretch.ts';

describe('the scale on which a method errs alike everywhere', () => {
  it('counts a constant error in plain multiples', () => {
    const { between, deviationAt } = stretchOf([
      [40, 5],
      [90, 5],
    ]);
    expect(deviationAt(60)).toBe(5);
    expect(between(40, 90)).toBeCloseTo(10, 12);
    expect(between(90, 40)).toBeCloseTo(-10, 12);
  });

  it('is the logarithm where the error is in proportion to the value', () => {
    // The textbook case of Bartlett 1947.
    const { between } = stretchOf([
      [10, 1],
      [100, 10],
      [1000, 100],
    ]);
    expect(between(20, 500)).toBeCloseTo(10 * Math.log(25), 10);
  });

  it('counts the mean error of a stretch by what lies in it', () => {
    // By hand: 20 to either side of 100 are 20 / 5 + 20 / 10 = 6 errors, so 40 / 6 each.
    const { deviationAt } = stretchOf([
      [99.999, 5],
      [100.001, 10],
    ]);
    expect(deviationAt(100, 20)).toBeCloseTo(40 / 6, 2);
  });
  it('adds up, whichever way it is cut', () => {
    const { between } = stretchOf([
      [0, 12],
      [80, 12],
      [120, 20],
      [240, 18],
    ]);
    expect(between(-20, 60) + between(60, 300)).toBeCloseTo(between(-20, 300), 10);
  });
});
