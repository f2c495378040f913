import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pchip } from '../../../src/core/math/pchip.ts';

describe('pchip', () => {
  it('passes through its points and goes on straight beyond them', () => {
    const f = pchip([0, 1, 3], [2, 5, 6]);
    expect(f(0)).toBeCloseTo(2);
    expect(f(1)).toBeCloseTo(5);
    expect(f(3)).toBeCloseTo(6);
    expect(f(4) - f(3.5)).toBeCloseTo(f(5) - f(4.5));
  });

  it('reproduces a straight line', () => {
    const f = pchip([0, 1, 3, 7], [1, 3, 7, 15]);
    for (const x of [-2, 0.3, 2.2, 5, 9]) expect(f(x)).toBeCloseTo(2 * x + 1);
  });

  // Fritsch & Butland's harmonic mean by hand: secants 1 and 3 over equal steps give 2*1*3/(1+3) = 1.5;
  // ends by the three-point rule give (3*1-3)/2 = 0 and (3*3-1)/2 = 4.
  it('has the slopes of the published rule', () => {
    const f = pchip([0, 1, 2], [0, 1, 4]);
    const slope = (x: number) => (f(x + 1e-6) - f(x - 1e-6)) / 2e-6;
    expect(slope(1)).toBeCloseTo(1.5, 4);
    expect(slope(-0.5)).toBeCloseTo(0, 4);
    expect(slope(2.5)).toBeCloseTo(4, 4);
  });

  it('never overshoots rising data', () => {
    const steps = fc.array(
      fc.tuple(fc.double({ min: 0.01, max: 9, noNaN: true }), fc.double({ min: 0, max: 9, noNaN: true })),
      {
        minLength: 2,
        maxLength: 9,
      },
    );
    fc.assert(
      fc.property(
        steps,
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (some, s, t) => {
          const x = some.reduce((all, [dx]) => [...all, all.at(-1)! + dx], [0]);
          const y = some.reduce((all, [, dy]) => [...all, all.at(-1)! + dy], [0]);
          const f = pchip(x, y);
          const [one, two] = [Math.min(s, t), Math.max(s, t)].map((share) => share * x.at(-1)!) as [number, number];
          expect(f(two)).toBeGreaterThanOrEqual(f(one) - 1e-9);
          expect(f(two)).toBeLessThanOrEqual(y.at(-1)! + 1e-9);
        },
      ),
      { seed: 1984, numRuns: 300 },
    );
  });
});
