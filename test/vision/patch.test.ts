import { describe, expect, it } from 'vitest';
import { outlineOf, samplePatch } from '../../src/vision/patch.ts';
import type { Pixels } from '../../src/vision/pixels.ts';
import { randomFrom } from './pictures.ts';

const BOX = { xMm: 2, yMm: 3, widthMm: 6, heightMm: 4 };
const PLACE = { id: 'patch', outline: outlineOf(BOX), insetMm: 0.5 };

type Paint = (xMm: number, yMm: number) => readonly [number, number, number];

function picture(paint: Paint, width = 120, height = 100): Pixels {
  const data = new Uint8ClampedArray(width * height * 4);
  for (let i = 0; i < width * height; i++) {
    data.set([...paint(((i % width) + 0.5) / 10, (Math.floor(i / width) + 0.5) / 10), 255], i * 4);
  }
  return { data, width, height };
}

/** Normal deviates by the Box-Muller method. */
function gaussian(seed: number): () => number {
  const random = randomFrom(seed);
  return () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}

describe('a patch', () => {
  it('has the colour it was painted with, and the pixels within its inset', () => {
    const inside = (x: number, y: number) => x > 2 && x < 8 && y > 3 && y < 7;
    const sample = samplePatch(
      picture((x, y) => (inside(x, y) ? [51, 102, 204] : [255, 0, 0])),
      PLACE,
    )!;
    expect(sample).toMatchObject({ id: 'patch', rgb: [0.2, 0.4, 0.8], scatter: [0, 0, 0], count: 50 * 30 });
    expect(sample).toMatchObject({ clipped: 0, rejected: 0 });
    expect([sample.xMm, sample.yMm]).toEqual([5, 5]);
  });

  it('is met on a slant too, whichever way its outline goes round', () => {
    const [c, s] = [Math.cos(0.3), Math.sin(0.3)];
    const along = (x: number, y: number) => [(x - 6) * c + (y - 5) * s, (y - 5) * c - (x - 6) * s] as const;
    const flat = picture((x, y) => {
      const [u, v] = along(x, y);
      return Math.abs(u) < 3 && Math.abs(v) < 1.5 ? [100, 100, 100] : [250, 10, 10];
    });
    const corner = (u: number, v: number) => [6 + u * c - v * s, 5 + u * s + v * c] as const;
    const outline = [corner(-3, -1.5), corner(3, -1.5), corner(3, 1.5), corner(-3, 1.5)] as const;
    const reverse = [outline[3], outline[2], outline[1], outline[0]] as const;
    for (const round of [outline, reverse]) {
      const sample = samplePatch(flat, { id: 'slant', outline: round, insetMm: 0.2 })!;
      expect(sample.scatter).toEqual([0, 0, 0]);
      // 5.6 by 2.6 mm.
      expect(Math.abs(sample.count - 1456)).toBeLessThan(40);
    }
  });

  it('keeps its mean and scatter under noise', () => {
    const normal = gaussian(3);
    const sample = samplePatch(
      picture(() => [120 + 6 * normal(), 90 + 4 * normal(), 60 + 2 * normal()]),
      PLACE,
    )!;
    [120, 90, 60].forEach((level, i) => expect(Math.abs(sample.rgb[i]! * 255 - level)).toBeLessThan(0.6));
    // Cutting the far tails off takes up to a fifth of the deviation.
    [6, 4, 2].forEach((sigma, i) => {
      expect(sample.scatter[i]! * 255).toBeGreaterThan(0.78 * sigma);
      expect(sample.scatter[i]! * 255).toBeLessThan(1.08 * sigma);
    });
    expect(sample.rejected).toBeLessThan(0.15);
  });

  it('leaves out a glint over a quarter of it and dark specks', () => {
    const normal = gaussian(4);
    const plain = samplePatch(
      picture(() => [140 + 2 * normal(), 110 + 2 * normal(), 90 + 2 * normal()]),
      PLACE,
    )!;
    const spoiled = samplePatch(
      picture((x, y) => {
        if (x < 3.75) return [235 + 3 * normal(), 230 + 3 * normal(), 228 + 3 * normal()];
        if (Math.hypot(x - 6, y - 5) < 0.4) return [40, 30, 25];
        return [140 + 2 * normal(), 110 + 2 * normal(), 90 + 2 * normal()];
      }),
      PLACE,
    )!;
    for (let c = 0; c < 3; c++) expect(Math.abs(spoiled.rgb[c]! - plain.rgb[c]!) * 255).toBeLessThan(0.5);
    expect(spoiled.rejected).toBeGreaterThan(0.25);
    expect(spoiled.rejected).toBeLessThan(0.45);
  });

  it('reports how much of it is clipped, rejected or not', () => {
    const flat = picture((x) => (x < 4 ? [255, 250, 240] : [200, 190, 180]));
    expect(samplePatch(flat, PLACE)!.clipped).toBeCloseTo(0.3, 1);
    expect(
      samplePatch(
        picture(() => [0, 80, 90]),
        PLACE,
      )!.clipped,
    ).toBe(1);
  });

  it('doesn’t look where it is told to keep clear', () => {
    const flat = picture((x, y) => (Math.abs(y - 5 - 0.1 * (x - 5)) < 0.6 ? [255, 255, 255] : [100, 110, 120]));
    const strip = [
      [0, 3.7],
      [12, 4.9],
      [12, 6.5],
      [0, 5.3],
    ] as const;
    const sample = samplePatch(flat, PLACE, strip)!;
    expect(sample.scatter).toEqual([0, 0, 0]);
    expect(sample.rejected).toBe(0);
    expect(sample.count).toBeLessThan(50 * 30);
    expect(samplePatch(flat, PLACE, outlineOf({ xMm: 0, yMm: 0, widthMm: 12, heightMm: 10 }))).toBeNull();
  });

  it('is nothing when it lies outside the picture or is all inset', () => {
    const flat = picture(() => [100, 100, 100]);
    expect(samplePatch(flat, { ...PLACE, outline: outlineOf({ ...BOX, xMm: 50 }) })).toBeNull();
    expect(samplePatch(flat, { ...PLACE, insetMm: 2.1 })).toBeNull();
  });
});
