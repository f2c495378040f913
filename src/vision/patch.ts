/** The colour of one place on the flattened card, glints, specks and edges left out. */
import type { Point } from '../core/card/homography.ts';
import type { PatchSample, Rgb } from '../core/samples.ts';
import { FLAT_PX_PER_MM } from './flatten.ts';
import type { Pixels } from './pixels.ts';

/** Four corners on the card, mm, going round either way; convex. */
export type Outline = readonly [Point, Point, Point, Point];

export interface Place {
  readonly id: string;
  readonly outline: Outline;
  /** Left out along every side. */
  readonly insetMm: number;
}

/** Places beyond this many robust standard deviations from the median are left out: a glint sooner than a speck. */
const MAX_ABOVE = 2.5;
const MAX_BELOW = 3;
/** Never closer than this: a smooth patch's own noise and rounding, levels. */
const MIN_LIMIT = 3;
const ROUNDS = 2;
/** Fewer pixels than this say nothing. */
const MIN_PIXELS = 20;

/**
 * @param flat the card at FLAT_PX_PER_MM
 * @param keepClear pixels inside it are not looked at, nor counted
 * @returns null when too few pixels are left
 */
export function samplePatch(flat: Pixels, place: Place, keepClear: Outline | null = null): PatchSample | null {
  const { rgb, xMm, yMm } = pixelsOf(flat, place, keepClear);
  const colour = colourOf(rgb);
  return colour && { id: place.id, xMm, yMm, ...colour };
}

/**
 * The robust colour of pixels that should all be alike.
 * @param rgb three bytes a pixel
 * @returns null when they are too few
 */
export function colourOf(rgb: Uint8Array): Omit<PatchSample, 'id' | 'xMm' | 'yMm'> | null {
  const total = rgb.length / 3;
  if (total < MIN_PIXELS) return null;
  const kept = keepAlike(rgb);
  const count = kept.length / 3;
  const { mean, scatter } = statistics(kept);
  return { rgb: mean, scatter, count, clipped: clippedShare(rgb), rejected: 1 - count / total };
}

/** The corners of an upright rectangle. */
export function outlineOf(rect: { xMm: number; yMm: number; widthMm: number; heightMm: number }): Outline {
  const { xMm, yMm, widthMm, heightMm } = rect;
  return [
    [xMm, yMm],
    [xMm + widthMm, yMm],
    [xMm + widthMm, yMm + heightMm],
    [xMm, yMm + heightMm],
  ];
}

/** The pixels of one place, three bytes each, row by row. */
export function pixelsIn(flat: Pixels, place: Place): Uint8Array {
  return pixelsOf(flat, place, null).rgb;
}

interface Looked {
  /** Three bytes a pixel. */
  readonly rgb: Uint8Array;
  /** Centroid of the pixels, mm on the card. */
  readonly xMm: number;
  readonly yMm: number;
}

function pixelsOf(flat: Pixels, { outline, insetMm }: Place, keepClear: Outline | null): Looked {
  const sides = sidesOf(outline, insetMm);
  const clear = keepClear && sidesOf(keepClear, 0);
  const ys = outline.map(([, y]) => y * FLAT_PX_PER_MM);
  const top = Math.max(0, Math.floor(Math.min(...ys)));
  const bottom = Math.min(flat.height, Math.ceil(Math.max(...ys)));
  const spans: Span[] = [];
  for (let y = top; y < bottom; y++) {
    const whole = spanOf(sides, y, flat.width);
    const hole = clear ? spanOf(clear, y, flat.width) : { y, from: 0, to: 0 };
    if (hole.from >= hole.to) spans.push(whole);
    else spans.push({ ...whole, to: Math.min(whole.to, hole.from) }, { ...whole, from: Math.max(whole.from, hole.to) });
  }
  return readSpans(
    flat,
    spans.filter(({ from, to }) => from < to),
  );
}

/** The pixels from <= x < to of a row. */
interface Span {
  readonly y: number;
  readonly from: number;
  readonly to: number;
}

function readSpans(flat: Pixels, spans: readonly Span[]): Looked {
  const total = spans.reduce((sum, { from, to }) => sum + to - from, 0);
  const rgb = new Uint8Array(total * 3);
  let [n, sx, sy] = [0, 0, 0];
  for (const { y, from, to } of spans) {
    sx += ((to - from) * (from + to)) / 2;
    sy += (to - from) * (y + 0.5);
    for (let at = (y * flat.width + from) * 4; at < (y * flat.width + to) * 4; at += 4) {
      rgb[n] = flat.data[at]!;
      rgb[n + 1] = flat.data[at + 1]!;
      rgb[n + 2] = flat.data[at + 2]!;
      n += 3;
    }
  }
  return { rgb, xMm: sx / total / FLAT_PX_PER_MM, yMm: sy / total / FLAT_PX_PER_MM };
}

/** nx x + ny y >= c on the inner side. */
interface Side {
  readonly nx: number;
  readonly ny: number;
  readonly c: number;
}

function sidesOf(outline: Outline, insetMm: number): Side[] {
  const turn = Math.sign(
    outline.reduce((sum, [x, y], i) => {
      const [nextX, nextY] = outline[(i + 1) % 4]!;
      return sum + x * nextY - nextX * y;
    }, 0),
  );
  return outline.map(([x, y], i) => {
    const [nextX, nextY] = outline[(i + 1) % 4]!;
    const length = Math.hypot(nextX - x, nextY - y) * turn;
    const [nx, ny] = [-(nextY - y) / length, (nextX - x) / length];
    return { nx, ny, c: nx * x + ny * y + insetMm };
  });
}

/** The pixels of a row whose centres lie on the inner side of every side. */
function spanOf(sides: readonly Side[], y: number, width: number): Span {
  const yMm = (y + 0.5) / FLAT_PX_PER_MM;
  let [lowMm, highMm] = [0, width / FLAT_PX_PER_MM];
  for (const { nx, ny, c } of sides) {
    const rest = c - ny * yMm;
    if (nx > 0) lowMm = Math.max(lowMm, rest / nx);
    else if (nx < 0) highMm = Math.min(highMm, rest / nx);
    else if (rest > 0) highMm = -1;
  }
  const from = Math.ceil(lowMm * FLAT_PX_PER_MM - 0.5);
  return { y, from, to: Math.max(from, Math.floor(highMm * FLAT_PX_PER_MM - 0.5) + 1) };
}

/** Leaves out, in rounds, the pixels of which a channel is far from the median of those left. */
function keepAlike(rgb: Uint8Array): Uint8Array {
  let kept = rgb;
  for (let round = 0; round < ROUNDS; round++) {
    const limits = histograms(kept).map((counts) => limitsOf(counts, kept.length / 3));
    const next = within(kept, limits as [Limits, Limits, Limits]);
    if (next.length === kept.length) return kept;
    kept = next;
  }
  return kept;
}

function within(rgb: Uint8Array, [r, g, b]: readonly [Limits, Limits, Limits]): Uint8Array {
  const kept = new Uint8Array(rgb.length);
  let n = 0;
  for (let i = 0; i < rgb.length; i += 3) {
    const red = rgb[i]!;
    const green = rgb[i + 1]!;
    const blue = rgb[i + 2]!;
    if (red < r.low || red > r.high || green < g.low || green > g.high || blue < b.low || blue > b.high) continue;
    kept[n] = red;
    kept[n + 1] = green;
    kept[n + 2] = blue;
    n += 3;
  }
  return kept.subarray(0, n);
}

interface Limits {
  readonly low: number;
  readonly high: number;
}

type Histograms = readonly [Uint32Array, Uint32Array, Uint32Array];

/* Used again and again: hundreds of small arrays for every photo would keep the garbage collector busy. */
const COUNTS: Histograms = [new Uint32Array(256), new Uint32Array(256), new Uint32Array(256)];
const DISTANCES = new Uint32Array(256);

/** How many pixels have each level, for each channel; good until it is asked for again. */
function histograms(rgb: Uint8Array): Histograms {
  const [red, green, blue] = COUNTS;
  for (const counts of COUNTS) counts.fill(0);
  for (let i = 0; i < rgb.length; i += 3) {
    red[rgb[i]!]!++;
    green[rgb[i + 1]!]!++;
    blue[rgb[i + 2]!]!++;
  }
  return COUNTS;
}

function limitsOf(counts: Uint32Array, total: number): Limits {
  const median = middleOf(counts, total);
  DISTANCES.fill(0);
  for (let level = 0; level < 256; level++) {
    const distance = Math.round(Math.abs(level - median));
    DISTANCES[distance]! += counts[level]!;
  }
  const sigma = 1.4826 * middleOf(DISTANCES, total);
  return {
    low: median - Math.max(MIN_LIMIT, MAX_BELOW * sigma),
    high: median + Math.max(MIN_LIMIT, MAX_ABOVE * sigma),
  };
}

/** The median of whole levels, each spread evenly over its own width. */
function middleOf(counts: Uint32Array, total: number): number {
  let below = 0;
  for (let level = 0; level < 256; level++) {
    const here = counts[level]!;
    if (below + here >= total / 2) return Math.max(0, level - 0.5 + (total / 2 - below) / Math.max(1, here));
    below += here;
  }
  return 255;
}

/** Mean and standard deviation of each channel, 0 to 1. */
function statistics(rgb: Uint8Array): { mean: Rgb; scatter: Rgb } {
  const n = rgb.length / 3;
  const each = histograms(rgb).map((counts) => {
    let sum = 0;
    let squares = 0;
    counts.forEach((count, level) => {
      sum += count * level;
      squares += count * level * level;
    });
    return { mean: sum / n / 255, scatter: Math.sqrt(Math.max(0, squares / n - (sum / n) ** 2)) / 255 };
  });
  return {
    mean: each.map(({ mean }) => mean) as unknown as Rgb,
    scatter: each.map(({ scatter }) => scatter) as unknown as Rgb,
  };
}

/** A channel at its end, 0 or 255, comes back from a JPEG up to three levels off. */
const LOWEST = 1;
const HIGHEST = 252;

function clippedShare(rgb: Uint8Array): number {
  let clipped = 0;
  for (let i = 0; i < rgb.length; i += 3) {
    const red = rgb[i]!;
    const green = rgb[i + 1]!;
    const blue = rgb[i + 2]!;
    if (Math.min(red, green, blue) <= LOWEST || Math.max(red, green, blue) >= HIGHEST) clipped++;
  }
  return clipped / (rgb.length / 3);
}
