/** All that is ever asked of the engine, on pictures of many shapes: to see which of its functions that takes. */
import { createHash } from 'node:crypto';
import { binarise } from '../../src/vision/card/binarise.ts';
import { PASSES } from '../../src/vision/card/find-card.ts';
import { findOutlines } from '../../src/vision/card/outlines.ts';
import { type Cv, EngineError, withMats } from '../../src/vision/engine/opencv.ts';
import { PASSES as PASSES_OF_FRAMES } from '../../src/vision/track/look.ts';

/** Thin ones, odd ones, the sides that are searched, and the largest that there can be. */
export const SIZES: readonly (readonly [width: number, height: number])[] = [
  [1, 1],
  [2, 3],
  [7, 5],
  [16, 16],
  [33, 64],
  [150, 100],
  [799, 601],
  [800, 600],
  [480, 1600],
  [2000, 1500],
  [3900, 48],
  [48, 3900],
  [3900, 2925],
];

type Pattern = (x: number, y: number) => number;

/** Paper, ink, steps, grain: 8 bit levels. */
const PATTERNS: readonly Pattern[] = [
  () => 255,
  () => 0,
  (x, y) => (((x >> 4) + (y >> 4)) % 2 === 0 ? 30 : 225),
  (x, y) => (Math.imul(x + 7919 * y, 2654435761) >>> 24) & 0xff,
  (x, y) => 128 + 100 * Math.sin(x / 9) * Math.cos(y / 13),
];

/** @returns a digest of everything that came out */
export function exercise(cv: Cv, sizes = SIZES): string {
  const digest = createHash('sha256');
  for (const [width, height] of sizes) {
    for (const pattern of PATTERNS) {
      const data = Uint8Array.from({ length: width * height }, (_, i) => pattern(i % width, Math.floor(i / width)));
      for (const by of [...PASSES.map((pass) => pass.by), ...PASSES_OF_FRAMES]) {
        digest.update(
          withMats(cv, (keep) => {
            const ink = binarise(cv, keep, { data, width, height, factor: 1 }, by);
            const seen = ink.data.slice();
            return Buffer.concat([seen, ...findOutlines(cv, keep, ink).map((line) => Buffer.from(line.buffer))]);
          }),
        );
      }
    }
  }
  return digest.update(complaint(cv)).digest('hex');
}

/** What OpenCV says when it is asked for what it can't do. */
export function complaint(cv: Cv): string {
  try {
    withMats(cv, (keep) => {
      cv.adaptiveThreshold(keep(new cv.Mat()), keep(new cv.Mat()), 255, cv.ADAPTIVE_THRESH_MEAN_C, 1, 4, 0);
    });
  } catch (error) {
    if (error instanceof EngineError) return error.message;
    throw error;
  }
  throw new Error('OpenCV took an even window');
}
