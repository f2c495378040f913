import { describe, expect, it } from 'vitest';
import { fitWithPriors, solveSymmetric } from '../../../src/core/math/least-squares.ts';

describe('solveSymmetric', () => {
  it('solves a system worked by hand', () => {
    // 4x + 2y = 10, 2x + 3y = 11 has x = 1, y = 3.
    const [x, y] = solveSymmetric(
      [
        [4, 2],
        [2, 3],
      ],
      [10, 11],
    );
    expect(x).toBeCloseTo(1);
    expect(y).toBeCloseTo(3);
  });

  it('refuses a matrix that is not positive definite', () => {
    expect(() => solveSymmetric([[0]], [1])).toThrow(RangeError);
  });
});

describe('fitWithPriors', () => {
  const loose = { prior: 0.1, sigma: 1e3 };

  it('finds the parameters of a curve that was sampled without error', () => {
    const xs = [0, 1, 2, 3, 4];
    const seen = xs.map((x) => 2 * Math.exp(-0.7 * x));
    const { x } = fitWithPriors(
      ([a, k]) => xs.map((at, i) => (a! * Math.exp(-k! * at) - seen[i]!) / 0.01),
      [
        { prior: 1, sigma: 10 },
        { prior: 0.3, sigma: 10 },
      ],
    );
    expect(x[0]).toBeCloseTo(2, 4);
    expect(x[1]).toBeCloseTo(0.7, 4);
  });

  it('weighs prior and data by their variances', () => {
    // One reading of 4 (sigma 1) against a belief of 0 (sigma 1): half way.
    const { x } = fitWithPriors(([a]) => [a! - 4], [{ prior: 0, sigma: 1 }]);
    expect(x[0]).toBeCloseTo(2, 6);
  });

  it('stays put when nothing improves', () => {
    expect(fitWithPriors(() => [7], [loose]).x).toEqual([0.1]);
  });
});
