/** The colour of one place on the flattened card, glints, specks and edges left out. */
import type { Point } from '../core/card/homography.ts';
import type { PatchSample } from '../core/samples.ts';
import { asWords } from './card/grey.ts';
import { colourOf } from './colour-of.ts';
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

/**
 * @param flat the card at FLAT_PX_PER_MM
 * @param keepClear pixels inside it are not looked at, nor counted
 * @returns null when too few pixels are left
 */
export function samplePatch(flat: Pixels, place: Place, keepClear: Outline | null = null): PatchSample | null {
  const { words, xMm, yMm } = pixelsOf(flat, place, keepClear);
  const colour = colourOf(words);
  return colour && { id: place.id, xMm, yMm, ...colour };
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

/** The pixels of one place, RGBA as one number each, row by row; good until another place is looked at. */
export function pixelsIn(flat: Pixels, place: Place): Int32Array {
  return pixelsOf(flat, place, null).words;
}

interface Looked {
  /** RGBA, a number a pixel; good until another place is looked at. */
  readonly words: Int32Array;
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
  const reader = new SpanReader(flat);
  for (let y = top; y < bottom; y++) {
    findSpan(sides, y, flat.width);
    const [from, to] = [spanFrom, spanTo];
    spanFrom = spanTo = 0;
    if (clear) findSpan(clear, y, flat.width);
    if (spanFrom >= spanTo) {
      reader.read(y, from, to);
      continue;
    }
    const [holeFrom, holeTo] = [spanFrom, spanTo];
    reader.read(y, from, Math.min(to, holeFrom));
    reader.read(y, Math.max(from, holeTo), to);
  }
  return reader.looked();
}

/** Used again and again, as large as a flat picture: megabytes for every photo would keep the garbage collector busy. */
let room = new Int32Array(0);

/** Gathers rows of pixels. */
class SpanReader {
  readonly #words: Int32Array;
  readonly #width: number;
  #count = 0;
  #sx = 0;
  #sy = 0;

  constructor({ data, width }: Pixels) {
    this.#words = asWords(data);
    this.#width = width;
    if (room.length < this.#words.length) room = new Int32Array(this.#words.length);
  }

  /** The pixels from <= x < to of a row. */
  read(y: number, from: number, to: number): void {
    if (from >= to) return;
    this.#sx += ((to - from) * (from + to)) / 2;
    this.#sy += (to - from) * (y + 0.5);
    room.set(this.#words.subarray(y * this.#width + from, y * this.#width + to), this.#count);
    this.#count += to - from;
  }

  looked(): Looked {
    const pxPerMm = FLAT_PX_PER_MM;
    return {
      words: room.subarray(0, this.#count),
      xMm: this.#sx / this.#count / pxPerMm,
      yMm: this.#sy / this.#count / pxPerMm,
    };
  }
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

let spanFrom = 0;
let spanTo = 0;

/** Sets `spanFrom` and `spanTo` to the pixels of a row whose centres lie on the inner side of every side. */
function findSpan(sides: readonly Side[], y: number, width: number): void {
  const yMm = (y + 0.5) / FLAT_PX_PER_MM;
  let lowMm = 0;
  let highMm = width / FLAT_PX_PER_MM;
  for (const { nx, ny, c } of sides) {
    const rest = c - ny * yMm;
    if (nx > 0) lowMm = Math.max(lowMm, rest / nx);
    else if (nx < 0) highMm = Math.min(highMm, rest / nx);
    else if (rest > 0) highMm = -1;
  }
  spanFrom = Math.ceil(lowMm * FLAT_PX_PER_MM - 0.5);
  spanTo = Math.max(spanFrom, Math.floor(highMm * FLAT_PX_PER_MM - 0.5) + 1);
}
