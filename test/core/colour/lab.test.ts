import Color from 'colorjs.io';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decodeSrgb, encodeSrgb, labToLinear, labToSrgb, linearToLab } from '../../../src/core/colour/lab.ts';

describe('the sRGB decoding curve', () => {
  // IEC 61966-2-1:1999, clause 5.2: the two branches and where they meet.
  it.each([
    [0, 0],
    [0.04045, 0.0031308],
    [1, 1],
  ])('decodes %d to %d, points of IEC 61966-2-1', (encoded, linear) => {
    expect(decodeSrgb(encoded)).toBeCloseTo(linear, 7);
  });

  it('agrees with colorjs.io at every 8-bit level', () => {
    for (let level = 0; level <= 255; level++) {
      const theirs = new Color('srgb', [level / 255, 0, 0]).to('srgb-linear').coords[0]!;
      expect(decodeSrgb(level / 255)).toBeCloseTo(theirs, 9);
    }
  });
});

describe('the sRGB encoding curve', () => {
  it.each([
    [0, 0],
    [0.0031308, 0.04045],
    [1, 1],
  ])('encodes %d as %d, points of IEC 61966-2-1', (linear, encoded) => {
    expect(encodeSrgb(linear)).toBeCloseTo(encoded, 5);
  });

  it('agrees with colorjs.io over both branches', () => {
    for (let i = 0; i <= 400; i++) {
      const linear = (i / 400) ** 3;
      const theirs = new Color('srgb-linear', [linear, 0, 0]).to('srgb').coords[0]!;
      expect(encodeSrgb(linear)).toBeCloseTo(theirs, 6);
    }
  });
});

describe('Lab under D65', () => {
  it('gives a perfect white L* 100 and no hue', () => {
    const [l, a, b] = linearToLab([1, 1, 1]);
    expect(l).toBeCloseTo(100, 2);
    expect(a).toBeCloseTo(0, 2);
    expect(b).toBeCloseTo(0, 2);
  });

  // Lab (D65) of the sRGB primaries as commonly published for IEC 61966-2-1 (from memory, unverified).
  it.each([
    ['red', [1, 0, 0], [53.24, 80.09, 67.2]],
    ['green', [0, 1, 0], [87.73, -86.18, 83.18]],
    ['blue', [0, 0, 1], [32.3, 79.19, -107.86]],
  ] as const)('puts the %s primary where published', (_, linear, published) => {
    linearToLab(linear).forEach((value, i) => expect(Math.abs(value - published[i]!)).toBeLessThan(0.03));
  });

  it('agrees with colorjs.io and comes back, on random colours', () => {
    const channel = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(fc.tuple(channel, channel, channel), (linear) => {
        const lab = linearToLab(linear);
        const theirs = new Color('srgb-linear', linear).to('lab-d65').coords;
        lab.forEach((value, i) => expect(Math.abs(value - theirs[i]!)).toBeLessThan(0.02));
        labToLinear(lab).forEach((value, i) => expect(value).toBeCloseTo(linear[i]!, 9));
      }),
      { seed: 619662, numRuns: 500 },
    );
  });

  it('shows on a screen what colorjs.io does', () => {
    for (const lab of [
      [60, 20, -10],
      [80, -15, 30],
      [30, 5, 5],
    ] as const) {
      const theirs = new Color('lab-d65', [...lab]).to('srgb').coords;
      labToSrgb(lab).forEach((value, i) => expect(value).toBeCloseTo(theirs[i]!, 3));
    }
  });

  it('clips what a screen cannot show', () => {
    // Red and far from it.
    expect(labToSrgb([50, 120, 100])).toEqual([1, 0, 0]);
    labToSrgb([50, 120, 100]).forEach((value) => {
      expect(value).toBeGreaterThanOrEqual(0);
      expect(value).toBeLessThanOrEqual(1);
    });
  });
});
