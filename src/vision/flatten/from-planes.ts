/** Cells of the flat card from a photo whose brightness and colour are apart: colour is looked up once for each pixel. */
import { colourWidth, type Planes } from '../pixels.ts';
import { CELL_PX, downSide, type FillCell, inside, isCellInside, ONE } from './cell.ts';

/** A cell's brightness, 2^16 a level. */
type LumaCell = Int32Array;

/** @param taps places in the photo taken for each pixel's brightness, along each side @param rowPx of the flat picture */
export function fillFromPlanes(photo: Planes, taps: number, rowPx: number): FillCell {
  const luma = new Int32Array(CELL_PX * CELL_PX);
  return (corners, flat, at) => {
    if (taps === 1) interpolate(photo, corners, luma);
    else if (taps === 2 && isCellInside(corners, photo)) averageFour(photo, corners, luma);
    else average(photo, corners, taps, luma);
    colour(photo, corners, luma, rowPx, flat, at);
  };
}

/** From the four pixels of the photo around each place. */
function interpolate({ luma, width, height }: Planes, corners: Float64Array, cell: LumaCell): void {
  const lastX = (width - 1) * ONE - 1;
  const lastY = (height - 1) * ONE - 1;
  for (let row = 0, to = 0; row < CELL_PX; row++) {
    const share = (row + 0.5) / CELL_PX;
    const [x, y] = [downSide(corners, 0, share), downSide(corners, 1, share)];
    const dx = ((downSide(corners, 2, share) - x) * ONE) / CELL_PX;
    const dy = ((downSide(corners, 3, share) - y) * ONE) / CELL_PX;
    // Counted from the first pixel's centre, rounded to a sixteenth below.
    const x0 = (x - 0.5 + 1 / 32) * ONE + dx / 2;
    const y0 = (y - 0.5 + 1 / 32) * ONE + dy / 2;
    for (let i = 0; i < CELL_PX; i++) {
      const px = Math.min(Math.max(x0 + i * dx, 0), lastX) | 0;
      const py = Math.min(Math.max(y0 + i * dy, 0), lastY) | 0;
      const fx = (px >> 12) & 15;
      const fy = (py >> 12) & 15;
      const from = (py >> 16) * width + (px >> 16);
      const above = luma[from]! * (16 - fx) + luma[from + 1]! * fx;
      const below = luma[from + width]! * (16 - fx) + luma[from + width + 1]! * fx;
      cell[to++] = (above * (16 - fy) + below * fy) << 8;
    }
  }
}

/** From two times two places: the commonest number, written out because it takes half the time so. */
function averageFour({ luma, width }: Planes, corners: Float64Array, cell: LumaCell): void {
  const steps = 2 * CELL_PX;
  for (let row = 0, to = 0; row < CELL_PX; row++) {
    const [high, low] = [(row + 0.25) / CELL_PX, (row + 0.75) / CELL_PX];
    const [highX, highY] = [downSide(corners, 0, high), downSide(corners, 1, high)];
    const [lowX, lowY] = [downSide(corners, 0, low), downSide(corners, 1, low)];
    const dx0 = (((downSide(corners, 2, high) - highX) * ONE) / steps) | 0;
    const dy0 = (((downSide(corners, 3, high) - highY) * ONE) / steps) | 0;
    const dx1 = (((downSide(corners, 2, low) - lowX) * ONE) / steps) | 0;
    const dy1 = (((downSide(corners, 3, low) - lowY) * ONE) / steps) | 0;
    let x0 = (highX * ONE + dx0 / 2) | 0;
    let y0 = (highY * ONE + dy0 / 2) | 0;
    let x1 = (lowX * ONE + dx1 / 2) | 0;
    let y1 = (lowY * ONE + dy1 / 2) | 0;
    for (let i = 0; i < CELL_PX; i++) {
      const sum =
        luma[Math.imul(y0 >> 16, width) + (x0 >> 16)]! +
        luma[Math.imul((y0 + dy0) >> 16, width) + ((x0 + dx0) >> 16)]! +
        luma[Math.imul(y1 >> 16, width) + (x1 >> 16)]! +
        luma[Math.imul((y1 + dy1) >> 16, width) + ((x1 + dx1) >> 16)]!;
      x0 += 2 * dx0;
      y0 += 2 * dy0;
      x1 += 2 * dx1;
      y1 += 2 * dy1;
      cell[to++] = sum << 14;
    }
  }
}

/** From `taps` times `taps` places. */
function average({ luma, width, height }: Planes, corners: Float64Array, taps: number, cell: LumaCell): void {
  const steps = CELL_PX * taps;
  const share = ONE / (taps * taps);
  cell.fill(0);
  for (let row = 0; row < CELL_PX; row++) {
    for (let line = 0; line < taps; line++) {
      const down = (row + (line + 0.5) / taps) / CELL_PX;
      const [left, top] = [downSide(corners, 0, down), downSide(corners, 1, down)];
      const dx = (((downSide(corners, 2, down) - left) * ONE) / steps) | 0;
      const dy = (((downSide(corners, 3, down) - top) * ONE) / steps) | 0;
      let x = (left * ONE + dx / 2) | 0;
      let y = (top * ONE + dy / 2) | 0;
      for (let i = 0; i < steps; i++) {
        cell[row * CELL_PX + Math.trunc(i / taps)]! += luma[inside(y >> 16, height) * width + inside(x >> 16, width)]!;
        x += dx;
        y += dy;
      }
    }
  }
  for (let i = 0; i < cell.length; i++) cell[i] = cell[i]! * share;
}

/* T.871: R = Y + 1.402 (Cr - 128); G = Y - 0.344136 (Cb - 128) - 0.714136 (Cr - 128); B = Y + 1.772 (Cb - 128). */
const RED_OF_CR = table(1.402);
const GREEN_OF_CB = table(-0.344136);
const GREEN_OF_CR = table(-0.714136);
const BLUE_OF_CB = table(1.772);
const HALF = ONE / 2;

function table(factor: number): Int32Array {
  return Int32Array.from({ length: 256 }, (_, level) => Math.round((level - 128) * factor * ONE));
}

/**
 * Joins a cell's brightness and the photo's colour, looked up once for every two times two pixels: colour that a JPEG has
 * at half the resolution is no finer, and patches and pads are used without their edges.
 */
function colour(photo: Planes, corners: Float64Array, cell: LumaCell, rowPx: number, flat: Int32Array, at: number) {
  const { cb, cr, across, down, width, height } = photo;
  const stride = colourWidth(photo);
  const [lastX, lastY] = [width - 1, height - 1];
  for (let row = 0; row < CELL_PX; row += 2) {
    const share = (row + 1) / CELL_PX;
    const [left, top] = [downSide(corners, 0, share), downSide(corners, 1, share)];
    const dx = (((downSide(corners, 2, share) - left) * ONE) / (CELL_PX / 2)) | 0;
    const dy = (((downSide(corners, 3, share) - top) * ONE) / (CELL_PX / 2)) | 0;
    let x = (left * ONE + dx / 2) | 0;
    let y = (top * ONE + dy / 2) | 0;
    let to = at + row * rowPx;
    for (let from = row * CELL_PX; from < (row + 1) * CELL_PX; from += 2, to += 2) {
      const px = Math.min(Math.max(x >> 16, 0), lastX);
      const py = Math.min(Math.max(y >> 16, 0), lastY);
      const place = Math.imul(py >> down, stride) + (px >> across);
      const [u, v] = [cb[place]!, cr[place]!];
      const red = RED_OF_CR[v]! + HALF;
      const green = GREEN_OF_CB[u]! + GREEN_OF_CR[v]! + HALF;
      const blue = BLUE_OF_CB[u]! + HALF;
      flat[to] = wordOf(cell[from]!, red, green, blue);
      flat[to + 1] = wordOf(cell[from + 1]!, red, green, blue);
      flat[to + rowPx] = wordOf(cell[from + CELL_PX]!, red, green, blue);
      flat[to + rowPx + 1] = wordOf(cell[from + CELL_PX + 1]!, red, green, blue);
      x += dx;
      y += dy;
    }
  }
}

/** One pixel from its brightness and what its colour adds to it. */
function wordOf(luma: number, red: number, green: number, blue: number): number {
  return level(luma + red) | (level(luma + green) << 8) | (level(luma + blue) << 16) | 0xff000000;
}

function level(parts: number): number {
  const whole = parts >> 16;
  return whole < 0 ? 0 : whole > 255 ? 255 : whole;
}
