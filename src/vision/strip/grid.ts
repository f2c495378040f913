/** The slot seen as a coarse grid of colours, and the slot's own grey under the light of the photo. */
import { SLOT } from '../../core/card/geometry.ts';
import { solveSymmetric } from '../../core/math/least-squares.ts';
import { FLAT_PX_PER_MM } from '../flatten.ts';
import type { Pixels } from '../pixels.ts';

/** Encoded RGB 0-255 on a regular grid over part of the card; `rgb` holds three numbers a cell, row by row. */
export interface Grid {
  readonly x0Mm: number;
  readonly y0Mm: number;
  readonly stepMm: number;
  readonly columns: number;
  readonly rows: number;
  readonly rgb: Float32Array;
}

const STEP_MM = 0.25;
/* Keeps the slot's printed outline out. */
const INSET_MM = 0.75;

/** Averages the flattened card over the slot in cells of a quarter of a millimetre. */
export function gridOverSlot(flat: Pixels): Grid {
  const x0Mm = SLOT.xMm + INSET_MM;
  const y0Mm = SLOT.yMm + INSET_MM;
  const columns = Math.floor((SLOT.widthMm - 2 * INSET_MM) / STEP_MM);
  const rows = Math.floor((SLOT.heightMm - 2 * INSET_MM) / STEP_MM);
  const rgb = new Float32Array(columns * rows * 3);
  const [across, down] = [boxSides(x0Mm, columns, flat.width), boxSides(y0Mm, rows, flat.height)];
  for (let row = 0, to = 0; row < rows; row++) {
    const [top, bottom] = [down[2 * row]!, down[2 * row + 1]!];
    for (let column = 0; column < columns; column++, to += 3) {
      meanBetween(flat, across[2 * column]!, top, across[2 * column + 1]!, bottom, rgb, to);
    }
  }
  return { x0Mm, y0Mm, stepMm: STEP_MM, columns, rows, rgb };
}

/** First pixels of the cells of a row or column, and of what follows them, in turn. */
function boxSides(fromMm: number, cells: number, length: number): Int32Array {
  const sides = new Int32Array(2 * cells);
  for (let i = 0; i < cells; i++) {
    const middle = fromMm + (i + 0.5) * STEP_MM;
    sides[2 * i] = boxStart(middle, STEP_MM);
    sides[2 * i + 1] = boxEnd(middle, STEP_MM, sides[2 * i]!, length);
  }
  return sides;
}

function boxStart(middleMm: number, sizeMm: number): number {
  return Math.max(0, Math.round((middleMm - sizeMm / 2) * FLAT_PX_PER_MM));
}

function boxEnd(middleMm: number, sizeMm: number, start: number, length: number): number {
  return Math.min(length, Math.max(start + 1, Math.round((middleMm + sizeMm / 2) * FLAT_PX_PER_MM)));
}

/** Writes the mean encoded colour (0-255) of a square of the flattened card about a point in mm: three numbers. */
export function boxMean(
  flat: Pixels,
  xMm: number,
  yMm: number,
  sizeMm: number,
  to: Float32Array | Float64Array,
  at: number,
): void {
  const [left, top] = [boxStart(xMm, sizeMm), boxStart(yMm, sizeMm)];
  const [right, bottom] = [boxEnd(xMm, sizeMm, left, flat.width), boxEnd(yMm, sizeMm, top, flat.height)];
  meanBetween(flat, left, top, right, bottom, to, at);
}

function meanBetween(
  { data, width }: Pixels,
  left: number,
  top: number,
  right: number,
  bottom: number,
  to: Float32Array | Float64Array,
  at: number,
): void {
  let r = 0;
  let g = 0;
  let b = 0;
  for (let y = top; y < bottom; y++) {
    for (let i = (y * width + left) * 4, end = (y * width + right) * 4; i < end; i += 4) {
      r += data[i]!;
      g += data[i + 1]!;
      b += data[i + 2]!;
    }
  }
  const n = Math.max(1, (right - left) * (bottom - top));
  to[at] = r / n;
  to[at + 1] = g / n;
  to[at + 2] = b / n;
}

/** The slot's bare grey as a plane per channel: encoded RGB 0-255 at a place in mm. */
export interface Background {
  (xMm: number, yMm: number): [number, number, number];
  readonly planes: Planes;
}

/** Of a plane: its height at the card's middle, and its rise from there to the card's right and lower end. */
type Plane = readonly [number, number, number];
export type Planes = readonly [red: Plane, green: Plane, blue: Plane];

/* How near to the slot's grey a cell must be to count as bare slot, in two passes. */
const NEARNESS = [0.25, 0.08];

/** Fits the bare slot's colour over the grid; the strip's own cells are left out as unlike the majority. */
export function fitBackground(grid: Grid): Background {
  const [red, green, blue] = [0, 1, 2].map((c): Plane => [medianOf(grid, c), 0, 0]);
  let planes: Planes = [red!, green!, blue!];
  for (const nearness of NEARNESS) {
    const fitted = fitPlanes(grid, planes, nearness);
    if (!fitted) break;
    planes = fitted;
  }
  const at = (xMm: number, yMm: number) => planes.map((plane) => planeAt(plane, xMm, yMm)) as [number, number, number];
  return Object.assign(at, { planes });
}

export function planeAt(plane: Plane, xMm: number, yMm: number): number {
  return plane[0] + plane[1] * acrossCard(xMm) + plane[2] * downCard(yMm);
}

/** From the card's middle, 1 at its right end. */
function acrossCard(xMm: number): number {
  return (xMm - 74) / 74;
}

/** From the card's middle, 1 at its lower end. */
function downCard(yMm: number): number {
  return (yMm - 52.5) / 52.5;
}

const MIN_BARE_CELLS = 60;

/**
 * Least squares over the cells that are near to the planes, for all channels at once: the places are the same.
 * @returns null where such cells are too few
 */
function fitPlanes(grid: Grid, planes: Planes, nearness: number): Planes | null {
  const sums = new Float64Array(15);
  const us = Float64Array.from({ length: grid.columns }, (_, column) => acrossCard(columnMm(grid, column)));
  for (let row = 0; row < grid.rows; row++) addNearCells(grid, row, us, planes, nearness, sums);
  const [n, x, y, xx, xy, yy] = sums as unknown as [number, number, number, number, number, number];
  if (n < MIN_BARE_CELLS) return null;
  // Small ridge: cells in one line leave the tilt across it undetermined.
  const ridge = 1e-3 * n;
  const planeOf = (c: number) => {
    const a = [
      [n, x, y],
      [x, xx + ridge, xy],
      [y, xy, yy + ridge],
    ];
    return solveSymmetric(a, [...sums.subarray(6 + 3 * c, 9 + 3 * c)]) as unknown as Plane;
  };
  return [planeOf(0), planeOf(1), planeOf(2)];
}

/**
 * A row by itself: an engine that compiles a loop within a loop while it runs leaves it at each of its ends.
 * @param us places of the columns @param sums 1, x, y, xx, xy and yy of the places; then of each channel itself, by x and by y
 */
function addNearCells(
  grid: Grid,
  row: number,
  us: Float64Array,
  [red, green, blue]: Planes,
  nearness: number,
  sums: Float64Array,
): void {
  const { columns, rgb } = grid;
  const v = downCard(rowMm(grid, row));
  for (let column = 0, at = 3 * row * columns; column < columns; column++, at += 3) {
    const u = us[column]!;
    const r = rgb[at]!;
    const expectedRed = red[0] + red[1] * u + red[2] * v;
    if (Math.abs(r - expectedRed) > nearness * expectedRed + 2) continue;
    const g = rgb[at + 1]!;
    const expectedGreen = green[0] + green[1] * u + green[2] * v;
    if (Math.abs(g - expectedGreen) > nearness * expectedGreen + 2) continue;
    const b = rgb[at + 2]!;
    const expectedBlue = blue[0] + blue[1] * u + blue[2] * v;
    if (Math.abs(b - expectedBlue) > nearness * expectedBlue + 2) continue;
    sums[0]! += 1;
    sums[1]! += u;
    sums[2]! += v;
    sums[3]! += u * u;
    sums[4]! += u * v;
    sums[5]! += v * v;
    sums[6]! += r;
    sums[7]! += u * r;
    sums[8]! += v * r;
    sums[9]! += g;
    sums[10]! += u * g;
    sums[11]! += v * g;
    sums[12]! += b;
    sums[13]! += u * b;
    sums[14]! += v * b;
  }
}

/** Centre of a column of cells, mm on the card. */
export function columnMm({ x0Mm, stepMm }: Grid, column: number): number {
  return x0Mm + (column + 0.5) * stepMm;
}

/** Centre of a row of cells, mm on the card. */
export function rowMm({ y0Mm, stepMm }: Grid, row: number): number {
  return y0Mm + (row + 0.5) * stepMm;
}

/** Every so many cells are enough for a median to start from. */
const MEDIAN_STRIDE = 5;

function medianOf(grid: Grid, channel: number): number {
  const values = new Float32Array(Math.ceil((grid.columns * grid.rows) / MEDIAN_STRIDE));
  for (let i = 0; i < values.length; i++) values[i] = grid.rgb[3 * MEDIAN_STRIDE * i + channel]!;
  values.sort();
  return values[values.length >> 1]!;
}
