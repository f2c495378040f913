import { describe, expect, it } from 'vitest';
import { bracketedRoot, type Place } from '../../../src/core/water/root.ts';

/** How often the function was asked, its ends not counted, and where. */
function solved(f: (x: number) => number, low: number, high: number, tolerance = 1e-12) {
  const asked: number[] = [];
  const watched = (x: number) => {
    asked.push(x);
    return f(x);
  };
  const place = (x: number): Place => [x, f(x)];
  return { root: bracketedRoot(watched, place(low), place(high), tolerance), asked };
}

describe('the root', () => {
  it.each([
    ['a square', (x: number) => x * x - 2, 0, 2, Math.SQRT2],
    ['falling', (x: number) => 2 - x * x, 0, 2, Math.SQRT2],
    ['a cube', (x: number) => x ** 3 - 2, 0, 2, Math.cbrt(2)],
    ['ends the other way round', (x: number) => x ** 3 - 2, 2, 0, Math.cbrt(2)],
    ['an exponential', (x: number) => Math.exp(x) - 10, 0, 10, Math.LN10],
    ['near the low end', (x: number) => x ** 3 - 1e-6, 0, 2, 0.01],
    ['near the high end', (x: number) => (x - 2) ** 3 + 1e-6, 0, 2, 1.99],
    ['flat on one side', (x: number) => Math.atan(50 * (x - 0.3)), -1, 1, 0.3],
  ])('%s: found to the tolerance, within the bracket, in few steps', (_name, f, low, high, expected) => {
    const { root, asked } = solved(f, low, high);
    expect(Math.abs(root! - expected)).toBeLessThan(1e-12);
    for (const x of asked) expect(x >= Math.min(low, high) && x <= Math.max(low, high)).toBe(true);
    // Halving alone takes 41 for 2 / 1e-12; Ridders' method doubles its figures every two.
    expect(asked.length).toBeLessThanOrEqual(24);
  });

  it('of a straight line times an exponential is the first guess: Ridders divides just that out', () => {
    for (const f of [
      (x: number) => x - 0.3,
      (x: number) => (x - 0.3) * Math.exp(2 * x),
      (x: number) => (0.3 - x) * Math.exp(-x),
    ]) {
      expect(solved(f, 0, 1).asked[1]).toBeCloseTo(0.3, 12);
    }
  });

  it('is an end where an end is one', () => {
    expect(solved((x) => x, 0, 1)).toEqual({ root: 0, asked: [] });
    expect(solved((x) => x - 1, 0, 1)).toEqual({ root: 1, asked: [] });
  });

  it('is the middle where that is one', () => {
    expect(solved((x) => x ** 3, -1, 1).root).toBe(0);
  });

  it.each([
    ['both above', (x: number) => x + 1, 0],
    ['both below', (x: number) => x - 3, 0],
    ['an end that is no number', (x: number) => (x > 1.5 ? Number.NaN : x - 1), 0],
    ['a middle that is no number', (x: number) => (x === 1 ? Number.NaN : x - 1.2), 1],
  ])('is none: %s', (_name, f, asked) => {
    const found = solved(f, 0, 2);
    expect(found.root).toBeNull();
    expect(found.asked).toHaveLength(asked);
  });

  it('is as exact as was asked, in no more steps than that takes', () => {
    const f = (x: number) => x ** 5 - 0.3;
    const [rough, fine] = [solved(f, 0, 2, 1e-2), solved(f, 0, 2)];
    expect(Math.abs(rough.root! - 0.3 ** 0.2)).toBeLessThan(1e-2);
    expect(rough.asked.length).toBeLessThan(fine.asked.length);
  });

  it('of a jump is where it jumps', () => {
    expect(Math.abs(solved((x) => (x < 0.7 ? -1 : 1), 0, 1).root! - 0.7)).toBeLessThan(1e-9);
  });
});
