/** The robust colour of pixels that should all be alike: glints and specks left out. */
import type { PatchSample, Rgb } from '../core/samples.ts';

/** Pixels beyond this many robust standard deviations from the median are left out: a glint sooner than a speck. */
const MAX_ABOVE = 2.5;
const MAX_BELOW = 3;
/** Never closer than this: a smooth patch's own noise and rounding, levels. */
const MIN_LIMIT = 3;
const ROUNDS = 2;
/** Fewer pixels than this say nothing. */
const MIN_PIXELS = 20;

/* Used again and again: hundreds of small arrays for every photo would keep the garbage collector busy. */
const RED = new Uint32Array(256);
const GREEN = new Uint32Array(256);
const BLUE = new Uint32Array(256);
const DISTANCES = new Uint32Array(256);

/**
 * @param words RGBA, a number a pixel; what is left of them afterwards is of no use
 * @returns null when they are too few
 */
export function colourOf(words: Int32Array): Omit<PatchSample, 'id' | 'xMm' | 'yMm'> | null {
  const total = words.length;
  if (total < MIN_PIXELS) return null;
  count(words, total);
  const clipped = clippedShare(words);
  let kept = total;
  for (let round = 0; round < ROUNDS; round++) {
    const left = keepWithin(words, kept, limitsOf(RED, kept), limitsOf(GREEN, kept), limitsOf(BLUE, kept));
    if (left === kept) break;
    kept = left;
    count(words, kept);
  }
  const [red, green, blue] = [statistics(RED, kept), statistics(GREEN, kept), statistics(BLUE, kept)];
  return {
    rgb: [red.mean, green.mean, blue.mean] satisfies Rgb,
    scatter: [red.scatter, green.scatter, blue.scatter] satisfies Rgb,
    count: kept,
    clipped,
    rejected: 1 - kept / total,
  };
}

/** How many of the first pixels have each level, for each channel. */
function count(words: Int32Array, total: number): void {
  RED.fill(0);
  GREEN.fill(0);
  BLUE.fill(0);
  for (let i = 0; i < total; i++) {
    const word = words[i]!;
    RED[word & 0xff]!++;
    GREEN[(word >>> 8) & 0xff]!++;
    BLUE[(word >>> 16) & 0xff]!++;
  }
}

interface Limits {
  readonly low: number;
  readonly high: number;
  /** Whether all levels that were counted lie between them. */
  readonly holdAll: boolean;
}

/** Moves the pixels between the limits to the front. @returns how many they are */
function keepWithin(words: Int32Array, total: number, red: Limits, green: Limits, blue: Limits): number {
  if (red.holdAll && green.holdAll && blue.holdAll) return total;
  const { low: redLow, high: redHigh } = red;
  const { low: greenLow, high: greenHigh } = green;
  const { low: blueLow, high: blueHigh } = blue;
  let kept = 0;
  for (let i = 0; i < total; i++) {
    const word = words[i]!;
    const r = word & 0xff;
    const g = (word >>> 8) & 0xff;
    const b = (word >>> 16) & 0xff;
    if (r >= redLow && r <= redHigh && g >= greenLow && g <= greenHigh && b >= blueLow && b <= blueHigh)
      words[kept++] = word;
  }
  return kept;
}

/** @param counts how many pixels have each level */
function limitsOf(counts: Uint32Array, total: number): Limits {
  const median = middleOf(counts, total);
  DISTANCES.fill(0);
  let [least, most] = [255, 0];
  for (let level = 0; level < 256; level++) {
    const here = counts[level]!;
    if (here === 0) continue;
    if (least > level) least = level;
    most = level;
    DISTANCES[Math.round(Math.abs(level - median))]! += here;
  }
  const sigma = 1.4826 * middleOf(DISTANCES, total);
  const low = median - Math.max(MIN_LIMIT, MAX_BELOW * sigma);
  const high = median + Math.max(MIN_LIMIT, MAX_ABOVE * sigma);
  return { low, high, holdAll: low <= least && most <= high };
}

/** The median of whole levels, each spread evenly over its own width. */
function middleOf(counts: Uint32Array, total: number): number {
  const half = total / 2;
  let below = 0;
  for (let level = 0; level < 256; level++) {
    const here = counts[level]!;
    if (below + here >= half) return Math.max(0, level - 0.5 + (half - below) / Math.max(1, here));
    below += here;
  }
  return 255;
}

/** Mean and standard deviation of a channel, 0 to 1. */
function statistics(counts: Uint32Array, total: number): { mean: number; scatter: number } {
  let sum = 0;
  let squares = 0;
  for (let level = 0; level < 256; level++) {
    const here = counts[level]!;
    sum += here * level;
    squares += here * level * level;
  }
  return {
    mean: sum / total / 255,
    scatter: Math.sqrt(Math.max(0, squares / total - (sum / total) ** 2)) / 255,
  };
}

/** A channel at its end, 0 or 255, comes back from a JPEG up to three levels off. */
const LOWEST = 1;
const HIGHEST = 252;

function clippedShare(words: Int32Array): number {
  if (!reachesEnd(RED) && !reachesEnd(GREEN) && !reachesEnd(BLUE)) return 0;
  let clipped = 0;
  for (const word of words) {
    const r = word & 0xff;
    const g = (word >>> 8) & 0xff;
    const b = (word >>> 16) & 0xff;
    if (Math.min(r, g, b) <= LOWEST || Math.max(r, g, b) >= HIGHEST) clipped++;
  }
  return clipped / words.length;
}

function reachesEnd(counts: Uint32Array): boolean {
  for (let level = 0; level <= LOWEST; level++) if (counts[level]! > 0) return true;
  for (let level = HIGHEST; level < 256; level++) if (counts[level]! > 0) return true;
  return false;
}
