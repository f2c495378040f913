/** Cells of the flat card from a photo in RGBA. */
import { asWords } from '../card/grey.ts';
import type { Pixels } from '../pixels.ts';
import { CELL_PX, type FillCell, inside, isCellInside, lineAcross, ONE, rowAcross } from './cell.ts';

interface Source {
  readonly words: Int32Array;
  readonly width: number;
  readonly height: number;
}

/** @param taps places in the photo taken for each pixel, along each side @param rowPx of the flat picture */
export function fillFromPixels(photo: Pixels, taps: number, rowPx: number): FillCell {
  const from: Source = { words: asWords(photo.data), width: photo.width, height: photo.height };
  return (corners, flat, at) => {
    if (taps === 1) interpolate(from, corners, rowPx, flat, at);
    else if (taps === 2 && isCellInside(corners, from)) averageFour(from, corners, rowPx, flat, at);
    else average(from, corners, taps, rowPx, flat, at);
  };
}

/* Red and blue are worked on together, in the two halves of one number, and so are green and alpha. */
const EVEN = 0x00ff00ff;

/** Each pixel from the four pixels of the photo around its centre. */
function interpolate(
  { words, width, height }: Source,
  corners: Float64Array,
  rowPx: number,
  flat: Int32Array,
  at: number,
): void {
  const lastX = (width - 1) * ONE - 1;
  const lastY = (height - 1) * ONE - 1;
  for (let row = 0; row < CELL_PX; row++) {
    const { x, y, dx, dy } = rowAcross(corners, row);
    const to = at + row * rowPx;
    for (let i = 0; i < CELL_PX; i++) {
      const px = Math.min(Math.max(x + i * dx, 0), lastX) | 0;
      const py = Math.min(Math.max(y + i * dy, 0), lastY) | 0;
      const fx = (px >> 12) & 15;
      const fy = (py >> 12) & 15;
      const from = (py >> 16) * width + (px >> 16);
      const a = words[from]!;
      const b = words[from + 1]!;
      const c = words[from + width]!;
      const d = words[from + width + 1]!;
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
      flat[to + i] = (((even + 0x800080) >>> 8) & EVEN) | ((odd + 0x800080) & ~EVEN);
    }
  }
}

/** Each pixel from two times two places: the commonest number, written out because it takes half the time so. */
function averageFour(
  { words, width }: Source,
  corners: Float64Array,
  rowPx: number,
  flat: Int32Array,
  at: number,
): void {
  const steps = 2 * CELL_PX;
  for (let row = 0; row < CELL_PX; row++) {
    const high = lineAcross(corners, (row + 0.25) / CELL_PX, steps);
    const low = lineAcross(corners, (row + 0.75) / CELL_PX, steps);
    const [dx0, dy0, dx1, dy1] = [high.dx, high.dy, low.dx, low.dy];
    let [x0, y0, x1, y1] = [high.x, high.y, low.x, low.y];
    const to = at + row * rowPx;
    for (let i = 0; i < CELL_PX; i++) {
      const a = words[Math.imul(y0 >> 16, width) + (x0 >> 16)]!;
      const b = words[Math.imul((y0 + dy0) >> 16, width) + ((x0 + dx0) >> 16)]!;
      const c = words[Math.imul(y1 >> 16, width) + (x1 >> 16)]!;
      const d = words[Math.imul((y1 + dy1) >> 16, width) + ((x1 + dx1) >> 16)]!;
      x0 += 2 * dx0;
      y0 += 2 * dy0;
      x1 += 2 * dx1;
      y1 += 2 * dy1;
      const both = (a & EVEN) + (b & EVEN) + (c & EVEN) + (d & EVEN) + 0x00020002;
      const green = ((a >>> 8) & 0xff) + ((b >>> 8) & 0xff) + ((c >>> 8) & 0xff) + ((d >>> 8) & 0xff) + 2;
      flat[to + i] = ((both >>> 2) & EVEN) | ((green >>> 2) << 8) | 0xff000000;
    }
  }
}

/** Each pixel from `taps` times `taps` places. */
function average(
  source: Source,
  corners: Float64Array,
  taps: number,
  rowPx: number,
  flat: Int32Array,
  at: number,
): void {
  const { words, width, height } = source;
  const steps = CELL_PX * taps;
  const share = 1 / (taps * taps);
  const both = new Int32Array(CELL_PX);
  const green = new Int32Array(CELL_PX);
  for (let row = 0; row < CELL_PX; row++) {
    both.fill(0);
    green.fill(0);
    for (let across = 0; across < taps; across++) {
      const line = lineAcross(corners, (row + (across + 0.5) / taps) / CELL_PX, steps);
      let [x, y] = [line.x, line.y];
      for (let i = 0; i < steps; i++) {
        const word = words[inside(y >> 16, height) * width + inside(x >> 16, width)]!;
        const pixel = Math.trunc(i / taps);
        both[pixel]! += word & EVEN;
        green[pixel]! += (word >>> 8) & 0xff;
        x += line.dx;
        y += line.dy;
      }
    }
    for (let i = 0; i < CELL_PX; i++) {
      const red = ((both[i]! & 0xffff) * share + 0.5) | 0;
      const blue = ((both[i]! >>> 16) * share + 0.5) | 0;
      const middle = (green[i]! * share + 0.5) | 0;
      flat[at + row * rowPx + i] = red | (middle << 8) | (blue << 16) | 0xff000000;
    }
  }
}
