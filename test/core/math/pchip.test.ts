import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pchip } from '../../../src/core/math/pchip.ts';

function slopeAt(f: (x: number) => number, x: number): number {
  return (f(x + 1e-6) - f(x - 1e-6)) / 2e-6;
}

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
    expect(slopeAt(f, 1)).toBeCloseTo(1.5, 4);
    expect(slopeAt(f, -0.5)).toBeCloseTo(0, 4);
    expect(slopeAt(f, 2.5)).toBeCloseTo(4, 4);
  });

  // Uneven steps by hand: h = 1, 2; secants 3, 0.5. Inside (Fritsch & Butland with Brodlie's weights) w1 = 2*2+1 = 5,
  // w2 = 2+2*1 = 4: 9 / (5/3 + 4/0.5) = 9 / (29/3) = 27/29. First end ((2*1+2)*3 - 1*0.5)/3 = 11.5/3; last end
  // ((2*2+1)*0.5 - 2*3)/3 = -3.5/3, against its secant: 0.
  it('weighs uneven steps, and is flat at an end whose slope would turn', () => {
    const f = pchip([0, 1, 3], [0, 3, 4]);
    expect(slopeAt(f, 1)).toBeCloseTo(27 / 29, 4);
    expect(slopeAt(f, -0.5)).toBeCloseTo(11.5 / 3, 4);
    expect(slopeAt(f, 3.5)).toBeCloseTo(0, 6);
    // The same from the other end: h = 2, 1; secants 0.5, 3; w1 = 2*1+2 = 4, w2 = 1+2*2 = 5: 9 / (4/0.5 + 5/3).
    expect(slopeAt(pchip([0, 2, 3], [0, 1, 4]), 2)).toBeCloseTo(27 / 29, 4);
    // Half way through the second piece: (y1 + y2)/2 + h/8 * (m1 - m2) = 3.5 + 2/8 * 27/29.
    expect(f(2)).toBeCloseTo(3.5 + 27 / 116, 9);
  });

  // Secants 1 and -9: inside a peak, so flat; the first end by the rule (3*1+9)/2 = 6 would be more than 3*1.
  it('is flat at a peak and limits the end beside it to three secants', () => {
    const f = pchip([0, 1, 2], [0, 1, -8]);
    expect(slopeAt(f, 1)).toBeCloseTo(0, 4);
    expect(slopeAt(f, -0.5)).toBeCloseTo(3, 4);
    // Secants 1 and -1 give (3*1+1)/2 = 2, which stays; 3 and 1 give (3*3-1)/2 = 4, of one direction, and stays.
    expect(slopeAt(pchip([0, 1, 2], [0, 1, 0]), -0.5)).toBeCloseTo(2, 4);
    expect(slopeAt(pchip([0, 1, 2], [0, 3, 4]), -0.5)).toBeCloseTo(4, 4);
    // Secants 2 and -18: (3*2+18)/2 = 12 is held at 6; 2 and -2: (3*2+2)/2 = 4 stays.
    expect(slopeAt(pchip([0, 1, 2], [0, 2, -16]), -0.5)).toBeCloseTo(6, 4);
    expect(slopeAt(pchip([0, 1, 2], [0, 2, 0]), -0.5)).toBeCloseTo(4, 4);
    // Falling: secants -1 and 9.
    expect(slopeAt(pchip([0, 1, 2], [0, -1, 8]), -0.5)).toBeCloseTo(-3, 4);
    // A level first step stays level.
    expect(slopeAt(pchip([0, 1, 2], [0, 0, 5]), -0.5)).toBeCloseTo(0, 6);
  });

  it('is a straight line through two points', () => {
    const f = pchip([2, 4], [1, 7]);
    for (const [x, y] of [
      [0, -5],
      [3, 4],
      [5, 10],
    ] as const) {
      expect(f(x)).toBeCloseTo(y, 12);
    }
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
