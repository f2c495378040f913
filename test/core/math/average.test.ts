import { expect, it } from 'vitest';
import { mean, median } from '../../../src/core/math/average.ts';

it('finds the middle, whatever the order, and leaves the values as they were', () => {
  const values = [3, 1, 2];
  expect(median(values)).toBe(2);
  expect(values).toEqual([3, 1, 2]);
  expect(median([4, 1, 3, 2])).toBe(2.5);
  expect([median([]), mean([]), mean([1, 2, 6])]).toEqual([0, 0, 3]);
});
