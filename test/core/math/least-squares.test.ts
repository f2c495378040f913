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

  it('solves three unknowns', () => {
    // With x = 1, 2, 3: 4 + 12 + 24, 6 + 20 + 51, 8 + 34 + 135. (The factor is 2; 3, 1; 4, 5, 2.)
    const x = solveSymmetric(
      [
        [4, 6, 8],
        [6, 10, 17],
        [8, 17, 45],
      ],
      [40, 77, 177],
    );
    [1, 2, 3].forEach((expected, i) => expect(x[i]).toBeCloseTo(expected, 12));
  });

  it.each([
    ['nothing', [[0]]],
    // Determinant 1 - 4.
    [
      'a saddle',
      [
        [1, 2],
        [2, 1],
      ],
    ],
    ['no number', [[NaN]]],
  ])('refuses a matrix that is not positive definite: %s', (_name, matrix) => {
    expect(() =>
      solveSymmetric(
        matrix,
        matrix.map(() => 1),
      ),
    ).toThrow(RangeError);
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

  it('gives the residuals at the solution', () => {
    // A reading of 6 (sigma 1) against a belief of 1 (sigma 2): (6 + 1/4) / (1 + 1/4) = 5.
    const { x, residuals } = fitWithPriors(([a]) => [a! - 6], [{ prior: 1, sigma: 2 }]);
    expect(x[0]).toBeCloseTo(5, 6);
    expect(residuals).toHaveLength(1);
    expect(residuals[0]).toBeCloseTo(-1, 6);
  });

  // Minimum of (0.95 + 0.05 E)^2 + x^2 with E = exp(-20 x): where its derivative is nothing, x = (0.95 + 0.05 E) E. The
  // first step, of 1/2, makes the residual smaller, but the departure from what was believed larger by more.
  it('counts the departure from what was believed in what a step costs', () => {
    const { x } = fitWithPriors(([a]) => [0.95 + 0.05 * Math.exp(-20 * a!)], [{ prior: 0, sigma: 1 }]);
    const e = Math.exp(-20 * x[0]!);
    expect(x[0]).toBeGreaterThan(0.05);
    expect(x[0]! - (0.95 + 0.05 * e) * e).toBeCloseTo(0, 2);
  });

  it('halves a step that goes too far', () => {
    // Newton's method for atan x = 0 runs away from 3: its first step is to 3 - 10 * 1.249 = -9.5.
    expect(fitWithPriors(([a]) => [Math.atan(a!)], [{ prior: 3, sigma: 1e3 }]).x[0]).toBeCloseTo(0, 4);
  });

  it('comes back from where the curve has no value', () => {
    // From 9 the first step, 2 / (1/6) = 12, leads to -3, whose root is no number.
    expect(fitWithPriors(([a]) => [1e3 * (Math.sqrt(a!) - 1)], [{ prior: 9, sigma: 100 }]).x[0]).toBeCloseTo(1, 4);
  });

  it('stays put when nothing improves', () => {
    expect(fitWithPriors(() => [7], [loose]).x).toEqual([0.1]);
  });
});
