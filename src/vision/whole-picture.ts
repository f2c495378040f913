/** When no card is found: does the picture itself say why? */
import type { Photo } from './pixels.ts';

/** Levels (0-255) of green, or of brightness where a photo has it by itself; most of the picture must lie beyond for the light to be the reason. */
const DARK_LEVEL = 40;
const BRIGHT_LEVEL = 250;
const MAX_DARK = 0.9;
const MAX_BRIGHT = 0.4;
/** In a sharp picture the steepest steps to a neighbouring sample rise by more than this share of the picture's range. */
const SHARP_SHARE = 0.15;
/** A picture with less range than this has nothing in it that could be sharp. */
const MIN_RANGE = 80;
const SAMPLES_ACROSS = 800;

/** @returns why nothing could be found, or null when light and focus aren't to blame */
export function whyNothingFound(photo: Photo): 'too-dark' | 'blown-out' | 'blurred' | null {
  const step = Math.max(1, Math.floor(Math.max(photo.width, photo.height) / SAMPLES_ACROSS));
  let [dark, bright, count] = [0, 0, 0];
  const levels = new Uint32Array(256);
  const steps = new Uint32Array(256);
  for (let y = 0; y + step < photo.height; y += step) {
    for (let x = 0; x + step < photo.width; x += step) {
      const here = green(photo, x, y);
      if (here < DARK_LEVEL) dark++;
      if (here >= BRIGHT_LEVEL) bright++;
      levels[here]!++;
      const rise = Math.max(Math.abs(green(photo, x + step, y) - here), Math.abs(green(photo, x, y + step) - here));
      steps[rise]!++;
      count++;
    }
  }
  if (count === 0) return null;
  if (dark / count > MAX_DARK) return 'too-dark';
  if (bright / count > MAX_BRIGHT) return 'blown-out';
  const range = percentile(levels, count, 0.99) - percentile(levels, count, 0.01);
  return range >= MIN_RANGE && percentile(steps, count, 0.995) < SHARP_SHARE * range ? 'blurred' : null;
}

function percentile(counts: Uint32Array, total: number, share: number): number {
  let below = 0;
  for (let level = 0; level < 256; level++) {
    below += counts[level]!;
    if (below >= share * total) return level;
  }
  return 255;
}

function green(photo: Photo, x: number, y: number): number {
  const at = y * photo.width + x;
  return photo.luma ? photo.luma[at]! : photo.data[4 * at + 1]!;
}
