/** Ink from paper and its regions, bit for bit as OpenCV 4.3 has them (opencv-wasm 4.3.0-10 of the npm registry). */
import { describe, expect, it } from 'vitest';
import { type Binarisation, binarise } from '../../../src/vision/card/binarise.ts';
import { PASSES } from '../../../src/vision/card/find-card.ts';
import { boxesOf, findRuns } from '../../../src/vision/card/regions.ts';
import { PASSES as PASSES_OF_FRAMES } from '../../../src/vision/track/look.ts';
import { startOpenCv, withMats } from '../opencv.ts';

/** Thin ones, odd ones, and one as large as is searched first. */
const SIZES = [
  [1, 1],
  [2, 3],
  [7, 5],
  [16, 16],
  [33, 64],
  [51, 170],
  [301, 207],
  [48, 900],
  [799, 601],
] as const;

/** Paper, ink, steps, grain, waves, grainy waves: 8 bit levels. */
const PATTERNS: readonly ((x: number, y: number) => number)[] = [
  () => 255,
  () => 0,
  (x, y) => (((x >> 4) + (y >> 4)) % 2 === 0 ? 30 : 225),
  grain,
  (x, y) => 128 + 100 * Math.sin(x / 9) * Math.cos(y / 13),
  (x, y) => 112 + 60 * Math.sin(x / 29) * Math.cos(y / 33) + (grain(x, y) >> 3),
];

const WAYS = [...PASSES.map(({ by }) => by), ...PASSES_OF_FRAMES];

const cv = startOpenCv();

describe.each(SIZES)('of a picture of %i x %i pixels', (width, height) => {
  const pictures = PATTERNS.map((pattern) =>
    Uint8Array.from({ length: width * height }, (_, i) => pattern(i % width, Math.floor(i / width))),
  );

  it('ink is what adaptiveThreshold, threshold and GaussianBlur call it', () => {
    for (const data of pictures)
      for (const by of WAYS)
        expect(
          Buffer.compare(binarise({ data, width, height, factor: 1 }, by), inkByOpenCv(data, width, height, by)),
        ).toBe(0);
  });

  it('regions are those of connectedComponentsWithStats, in its order', () => {
    for (const data of pictures) {
      const ink = binarise({ data, width, height, factor: 1 }, WAYS[0]!);
      const runs = findRuns(ink, width, height);
      const { left, right, bottom, area } = boxesOf(runs);
      const ours = [...runs.first.subarray(0, runs.count).keys()]
        .filter((run) => runs.first[run] === run)
        .map((run) => [left[run], runs.row[run], right[run]! - left[run]!, bottom[run]! - runs.row[run]!, area[run]]);
      expect(ours).toEqual(regionsByOpenCv(ink, width, height));
    }
  });
});

function inkByOpenCv(data: Uint8Array, width: number, height: number, by: Binarisation): Uint8Array {
  return withMats((keep) => {
    const from = keep(new cv.Mat(height, width, cv.CV_8UC1));
    from.data.set(data);
    const ink = keep(new cv.Mat());
    if (by.method === 'global') cv.threshold(from, ink, 0, 1, cv.THRESH_BINARY_INV | cv.THRESH_OTSU);
    else {
      const blur = 2 * Math.ceil(2 * by.smoothPx) + 1;
      if (by.smoothPx > 0) cv.GaussianBlur(from, from, { width: blur, height: blur }, by.smoothPx);
      const side = 2 * Math.max(1, Math.round((by.window * Math.max(width, height)) / 2)) + 1;
      cv.adaptiveThreshold(from, ink, 1, cv.ADAPTIVE_THRESH_MEAN_C, cv.THRESH_BINARY_INV, side, by.offset);
    }
    return ink.data.slice();
  });
}

function regionsByOpenCv(data: Uint8Array, width: number, height: number): number[][] {
  return withMats((keep) => {
    const ink = keep(new cv.Mat(height, width, cv.CV_8UC1));
    ink.data.set(data);
    const stats = keep(new cv.Mat());
    const count = cv.connectedComponentsWithStats(ink, keep(new cv.Mat()), stats, keep(new cv.Mat()), 4, cv.CV_32S);
    return Array.from({ length: count - 1 }, (_, i) => [...stats.data32S.subarray(5 * (i + 1), 5 * (i + 2))]);
  });
}

function grain(x: number, y: number): number {
  return (Math.imul(x + 7919 * y, 2654435761) >>> 24) & 0xff;
}
