/** The card as if seen straight from above. */
import { CARD_HEIGHT_MM, CARD_WIDTH_MM, type Rect } from '../core/card/geometry.ts';
import type { Point } from '../core/card/homography.ts';
import { asWords } from './card/grey.ts';
import type { Pixels } from './pixels.ts';

/** The flattened card shows the whole card, 1480 x 1050 px; its place (x, y) is (x, y) / 10 mm on the card. */
export const FLAT_PX_PER_MM = 10;

const WIDTH = CARD_WIDTH_MM * FLAT_PX_PER_MM;
const HEIGHT = CARD_HEIGHT_MM * FLAT_PX_PER_MM;

/** The map is worked out at nodes this far apart; between them a straight line is exact to a hundredth of a pixel. */
const CELL_PX = 10;
const COLUMNS = WIDTH / CELL_PX + 1;
const ROWS = HEIGHT / CELL_PX + 1;

/** Places in the photo taken for each pixel, along each side, at most. */
const MOST_TAPS = 3;

/** Where a place on the card, mm, is in the photo, px. */
export interface CardView {
  toPhoto(xMm: number, yMm: number): Point;
  readonly pxPerMm: number;
}

/**
 * Each pixel is the mean of as many places of the photo as it covers there.
 * Parts of the card outside the photo repeat its border.
 * @param only where the flat picture is wanted, to the millimetre; the rest of it may stay black
 */
export function flatten(photo: Pixels, card: CardView, only: readonly Area[] | null = null): Pixels {
  const taps = Math.min(MOST_TAPS, Math.max(1, Math.round(card.pxPerMm / FLAT_PX_PER_MM)));
  const nodes = nodesOf(card);
  const from: Source = { words: asWords(photo), width: photo.width, height: photo.height };
  const flat = new Int32Array(WIDTH * HEIGHT);
  const lines = taps === 1 ? [0.5] : Array.from({ length: taps }, (_, i) => (i + 0.5) / taps);
  const line = new Float64Array(2 * COLUMNS);
  const wanted = wantedCells(only);
  const sums = taps === 1 ? null : { redBlue: new Uint32Array(WIDTH), green: new Uint32Array(WIDTH) };
  for (let y = 0; y < HEIGHT; y++) {
    for (const part of lines) {
      nodesAlong(nodes, (y + part) / CELL_PX, line);
      if (sums) gather(from, line, taps, sums);
      else
        interpolate(
          from,
          line,
          wanted.subarray(cellRow(y), cellRow(y) + CELLS),
          flat.subarray(y * WIDTH, (y + 1) * WIDTH),
        );
    }
    if (sums) average(sums, taps * taps, flat.subarray(y * WIDTH, (y + 1) * WIDTH));
  }
  return { data: new Uint8ClampedArray(flat.buffer), width: WIDTH, height: HEIGHT };
}

/** A part of the card, mm. */
export type Area = Pick<Rect, 'xMm' | 'yMm' | 'widthMm' | 'heightMm'>;

const CELLS = COLUMNS - 1;

/** 1 for every cell that is wanted, row by row. */
function wantedCells(only: readonly Area[] | null): Uint8Array {
  const wanted = new Uint8Array(CELLS * (ROWS - 1)).fill(only ? 0 : 1);
  for (const { xMm, yMm, widthMm, heightMm } of only ?? []) {
    const cell = (mm: number) => (mm * FLAT_PX_PER_MM) / CELL_PX;
    const [left, right] = [Math.max(0, Math.floor(cell(xMm))), Math.min(CELLS, Math.ceil(cell(xMm + widthMm)))];
    const [top, bottom] = [Math.max(0, Math.floor(cell(yMm))), Math.min(ROWS - 1, Math.ceil(cell(yMm + heightMm)))];
    for (let row = top; row < bottom; row++) wanted.fill(1, row * CELLS + left, row * CELLS + right);
  }
  return wanted;
}

function cellRow(y: number): number {
  return Math.floor(y / CELL_PX) * CELLS;
}

interface Source {
  readonly words: Int32Array;
  readonly width: number;
  readonly height: number;
}

/** Places in the photo of the nodes, x and y in turn, row by row. */
function nodesOf(card: CardView): Float64Array {
  const nodes = new Float64Array(COLUMNS * ROWS * 2);
  for (let row = 0; row < ROWS; row++) {
    for (let column = 0; column < COLUMNS; column++) {
      const place = card.toPhoto((column * CELL_PX) / FLAT_PX_PER_MM, (row * CELL_PX) / FLAT_PX_PER_MM);
      nodes.set(place, (row * COLUMNS + column) * 2);
    }
  }
  return nodes;
}

/** The nodes of a row between two rows of nodes. */
function nodesAlong(nodes: Float64Array, row: number, line: Float64Array): void {
  const above = Math.floor(row);
  const share = row - above;
  const start = above * COLUMNS * 2;
  for (let i = 0; i < line.length; i++) {
    line[i] = nodes[start + i]! * (1 - share) + nodes[start + COLUMNS * 2 + i]! * share;
  }
}

/* Red and blue are worked on together, in the two halves of one number, and so are green and alpha. */
const EVEN = 0x00ff00ff;
/** Places in the photo are counted in steps of 2^-16 px: integers are faster. */
const ONE = 65536;

/** One row of the flat picture, cell by cell: each pixel from the four pixels of the photo around its centre. */
function interpolate({ words, width, height }: Source, line: Float64Array, wanted: Uint8Array, row: Int32Array): void {
  const lastX = (width - 1) * ONE - 1;
  const lastY = (height - 1) * ONE - 1;
  let to = 0;
  for (let cell = 0; cell < 2 * CELLS; cell += 2) {
    if (wanted[cell >> 1] === 0) {
      to += CELL_PX;
      continue;
    }
    const dx = ((line[cell + 2]! - line[cell]!) * ONE) / CELL_PX;
    const dy = ((line[cell + 3]! - line[cell + 1]!) * ONE) / CELL_PX;
    // Counted from the first pixel's centre, rounded to a sixteenth below.
    const x0 = (line[cell]! - 0.5 + 1 / 32) * ONE + dx / 2;
    const y0 = (line[cell + 1]! - 0.5 + 1 / 32) * ONE + dy / 2;
    for (let i = 0; i < CELL_PX; i++) {
      const x = Math.min(Math.max(x0 + i * dx, 0), lastX) | 0;
      const y = Math.min(Math.max(y0 + i * dy, 0), lastY) | 0;
      const fx = (x >> 12) & 15;
      const fy = (y >> 12) & 15;
      const at = (y >> 16) * width + (x >> 16);
      const a = words[at]!;
      const b = words[at + 1]!;
      const c = words[at + width]!;
      const d = words[at + width + 1]!;
      const wd = fx * fy;
      const wb = 16 * fx - wd;
      const wc = 16 * fy - wd;
      const wa = 256 - 16 * fx - wc;
      const even =
        Math.imul(a & EVEN, wa) + Math.imul(b & EVEN, wb) + Math.imul(c & EVEN, wc) + Math.imul(d & EVEN, wd);
      const odd =
        Math.imul((a >>> 8) & EVEN, wa) +
        Math.imul((b >>> 8) & EVEN, wb) +
        Math.imul((c >>> 8) & EVEN, wc) +
        Math.imul((d >>> 8) & EVEN, wd);
      row[to++] = (((even + 0x800080) >>> 8) & EVEN) | ((odd + 0x800080) & ~EVEN);
    }
  }
}

interface Sums {
  readonly redBlue: Uint32Array;
  readonly green: Uint32Array;
}

/** Adds the photo's pixels at `taps` places across each pixel of a row. */
function gather({ words, width, height }: Source, line: Float64Array, taps: number, { redBlue, green }: Sums): void {
  const steps = CELL_PX * taps;
  let to = 0;
  for (let cell = 0; cell < 2 * CELLS; cell += 2) {
    const dx = (((line[cell + 2]! - line[cell]!) * ONE) / steps) | 0;
    const dy = (((line[cell + 3]! - line[cell + 1]!) * ONE) / steps) | 0;
    let x = (line[cell]! * ONE + dx / 2) | 0;
    let y = (line[cell + 1]! * ONE + dy / 2) | 0;
    for (let i = 0; i < CELL_PX; i++) {
      let both = 0;
      let middle = 0;
      for (let tap = 0; tap < taps; tap++) {
        const word = words[inside(y >> 16, height) * width + inside(x >> 16, width)]!;
        both += word & EVEN;
        middle += (word >>> 8) & 0xff;
        x += dx;
        y += dy;
      }
      redBlue[to]! += both;
      green[to++]! += middle;
    }
  }
}

function inside(index: number, length: number): number {
  return index < 0 ? 0 : index < length ? index : length - 1;
}

/** Turns sums into pixels, and clears them. */
function average({ redBlue, green }: Sums, count: number, row: Int32Array): void {
  const share = 1 / count;
  for (let x = 0; x < WIDTH; x++) {
    const both = redBlue[x]!;
    const red = ((both & 0xffff) * share + 0.5) | 0;
    const blue = ((both >>> 16) * share + 0.5) | 0;
    const middle = (green[x]! * share + 0.5) | 0;
    row[x] = red | (middle << 8) | (blue << 16) | 0xff000000;
  }
  redBlue.fill(0);
  green.fill(0);
}
