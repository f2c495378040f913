/** Cells of the flat card from a photo whose brightness and colour are apart. */
import { colourWidth, type Planes } from '../pixels.ts';
import { CELL_PX, type FillCell, inside, isCellInside, lineAcross, ONE, rowAcross } from './cell.ts';

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
    const { x, y, dx, dy } = rowAcross(corners, row);
    for (let i = 0; i < CELL_PX; i++) {
      const px = Math.min(Math.max(x + i * dx, 0), lastX) | 0;
      const py = Math.min(Math.max(y + i * dy, 0), lastY) | 0;
      const fx = (px >> 12) & 15;
      const fy = (py >> 12) & 15;
      const from = (py >> 16) * width + (px >> 16);
      const above = luma[from]! * (16 - fx) + luma[from + 1]! * fx;
      const below = luma[from + width]! * (16 - fx) + luma[from + width + 1]! * fx;
      cell[to++] = (above * (16 - fy) + below * fy) << 8;
    }
  }
}

/**
 * From two times two places: the commonest number, written out, lines and all, because it takes half the time so. The
 * numbers are those of `lineAcross`.
 */
function averageFour({ luma, width }: Planes, corners: Float64Array, cell: LumaCell): void {
  const steps = 2 * CELL_PX;
  const leftX = corners[0]!;
  const leftY = corners[1]!;
  const rightX = corners[2]!;
  const rightY = corners[3]!;
  const lowLeftX = corners[4]!;
  const lowLeftY = corners[5]!;
  const lowRightX = corners[6]!;
  const lowRightY = corners[7]!;
  for (let half = 0; half < steps; half++) {
    const share = (half + 0.5) / steps;
    const left = leftX * (1 - share) + lowLeftX * share;
    const top = leftY * (1 - share) + lowLeftY * share;
    const dx = (((rightX * (1 - share) + lowRightX * share - left) * ONE) / steps) | 0;
    const dy = (((rightY * (1 - share) + lowRightY * share - top) * ONE) / steps) | 0;
    let x = (left * ONE + dx * 0.5) | 0;
    let y = (top * ONE + dy * 0.5) | 0;
    const isFirst = (half & 1) === 0;
    for (let to = (half >> 1) * CELL_PX, end = to + CELL_PX; to < end; to++) {
      const one = luma[Math.imul(y >> 16, width) + (x >> 16)]!;
      x += dx;
      y += dy;
      const sum = one + luma[Math.imul(y >> 16, width) + (x >> 16)]!;
      x += dx;
      y += dy;
      cell[to] = isFirst ? sum << 14 : cell[to]! + (sum << 14);
    }
  }
}

/** From `taps` times `taps` places. */
function average({ luma, width, height }: Planes, corners: Float64Array, taps: number, cell: LumaCell): void {
  const steps = CELL_PX * taps;
  const share = ONE / (taps * taps);
  cell.fill(0);
  for (let row = 0; row < CELL_PX; row++) {
    for (let across = 0; across < taps; across++) {
      const line = lineAcross(corners, (row + (across + 0.5) / taps) / CELL_PX, steps);
      let [x, y] = [line.x, line.y];
      for (let i = 0; i < steps; i++) {
        cell[row * CELL_PX + Math.trunc(i / taps)]! += luma[inside(y >> 16, height) * width + inside(x >> 16, width)]!;
        x += line.dx;
        y += line.dy;
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
/** Half a level, so that it is rounded, and so many levels that nothing is below 0 in the table of levels. */
const OFFSET = ONE / 2 + 256 * ONE;
/** Levels cut to those that there are. */
const LEVELS = Uint8Array.from({ length: 1024 }, (_, i) => Math.min(255, Math.max(0, i - 256)));
const OPAQUE = 0xff000000;

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
    const line = lineAcross(corners, (row + 1) / CELL_PX, CELL_PX / 2);
    let x = line.x;
    let y = line.y;
    let to = at + row * rowPx;
    for (let from = row * CELL_PX; from < (row + 1) * CELL_PX; from += 2, to += 2) {
      const px = Math.min(Math.max(x >> 16, 0), lastX);
      const py = Math.min(Math.max(y >> 16, 0), lastY);
      const place = Math.imul(py >> down, stride) + (px >> across);
      const u = cb[place]!;
      const v = cr[place]!;
      const red = RED_OF_CR[v]! + OFFSET;
      const green = GREEN_OF_CB[u]! + GREEN_OF_CR[v]! + OFFSET;
      const blue = BLUE_OF_CB[u]! + OFFSET;
      flat[to] = wordOf(cell[from]!, red, green, blue);
      flat[to + 1] = wordOf(cell[from + 1]!, red, green, blue);
      flat[to + rowPx] = wordOf(cell[from + CELL_PX]!, red, green, blue);
      flat[to + rowPx + 1] = wordOf(cell[from + CELL_PX + 1]!, red, green, blue);
      x += line.dx;
      y += line.dy;
    }
  }
}

/** One pixel from its brightness and what its colour adds to it. */
function wordOf(luma: number, red: number, green: number, blue: number): number {
  return (
    LEVELS[(luma + red) >> 16]! | (LEVELS[(luma + green) >> 16]! << 8) | (LEVELS[(luma + blue) >> 16]! << 16) | OPAQUE
  );
}
