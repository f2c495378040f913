import { describe, expect, it } from 'vitest';
import { MARKS } from '../../../src/core/card/geometry.ts';
import { findMarks } from '../../../src/vision/card/marks.ts';
import { photograph, type Shot } from '../pictures.ts';

const SHOT: Shot = {
  seed: 4,
  width: 1280,
  height: 960,
  fill: 0.75,
  turnDegrees: 40,
  tiltDegrees: 35,
  tiltAxisDegrees: 10,
  blurPx: 0.7,
  noise: 3,
  shade: 0.3,
};

function rms(values: readonly number[]): number {
  return Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length);
}

describe('the inner marks', () => {
  const photo = photograph(SHOT);

  it('lie at their own places where the map is right, tilt or not', () => {
    const seen = findMarks(photo.pixels, photo.toPhoto);
    expect(seen).toHaveLength(MARKS.length);
    const offs = seen.map(({ mark, xMm, yMm }) => Math.hypot(xMm - mark.xMm, yMm - mark.yMm));
    expect(rms(offs)).toBeLessThan(0.03);
  });

  it('show by how much a map is off, up to several millimetres', () => {
    for (const [dx, dy] of [
      [0.6, -0.4],
      [2.5, 2],
      [-3.5, 3],
    ] as const) {
      const seen = findMarks(photo.pixels, (xMm, yMm) => photo.toPhoto(xMm + dx, yMm + dy));
      expect(seen.length).toBeGreaterThanOrEqual(10);
      const offs = seen.map(({ mark, xMm, yMm }) => Math.hypot(xMm - mark.xMm + dx, yMm - mark.yMm + dy));
      expect(rms(offs)).toBeLessThan(0.06);
    }
  });

  it('aren’t seen where they are covered', () => {
    const covered = photograph({ ...SHOT, covers: [[60, 17, 40, 8]] });
    const seen = findMarks(covered.pixels, covered.toPhoto).map(({ mark }) => mark.id);
    expect(seen).toHaveLength(MARKS.length - 1);
    expect(seen).not.toContain('m2');
  });
});
