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
  for (let i = 0; i < columns * rows; i++) {
    const xMm = x0Mm + ((i % columns) + 0.5) * STEP_MM;
    const yMm = y0Mm + (Math.floor(i / columns) + 0.5) * STEP_MM;
    boxMean(flat, xMm, yMm, STEP_MM, rgb, 3 * i);
  }
  return { x0Mm, y0Mm, stepMm: STEP_MM, columns, rows, rgb };
}

/** Writes the mean encoded colour (0-255) of a square of the flattened card about a point in mm: three numbers. */
export function boxMean(
  { data, width, height }: Pixels,
  xMm: number,
  yMm: number,
  sizeMm: number,
  to: Float32Array | Float64Array,
  at: number,
): void {
  const left = Math.max(0, Math.round((xMm - sizeMm / 2) * FLAT_PX_PER_MM));
  const top = Math.max(0, Math.round((yMm - sizeMm / 2) * FLAT_PX_PER_MM));
  const right = Math.min(width, Math.max(left + 1, Math.round((xMm + sizeMm / 2) * FLAT_PX_PER_MM)));
  const bottom = Math.min(height, Math.max(top + 1, Math.round((yMm + sizeMm / 2) * FLAT_PX_PER_MM)));
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
    const cells = bareCells(grid, planes, nearness);
    if (cells.length < 60) break;
    planes = fitPlanes(grid, cells);
  }
  const at = (xMm: number, yMm: number) => planes.map((plane) => planeAt(plane, xMm, yMm)) as [number, number, number];
  return Object.assign(at, { planes });
}

export function planeAt(plane: Plane, xMm: number, yMm: number): number {
  return plane[0] + plane[1] * ((xMm - 74) / 74) + plane[2] * ((yMm - 52.5) / 52.5);
}

function bareCells(grid: Grid, [red, green, blue]: Planes, nearness: number): number[] {
  const { columns, rows, rgb } = grid;
  const isNear = (value: number, expected: number) => Math.abs(value - expected) <= nearness * expected + 2;
  const cells: number[] = [];
  for (let i = 0; i < columns * rows; i++) {
    const xMm = columnMm(grid, i);
    const yMm = rowMm(grid, i);
    if (
      isNear(rgb[3 * i]!, planeAt(red, xMm, yMm)) &&
      isNear(rgb[3 * i + 1]!, planeAt(green, xMm, yMm)) &&
      isNear(rgb[3 * i + 2]!, planeAt(blue, xMm, yMm))
    ) {
      cells.push(i);
    }
  }
  return cells;
}

/** Least squares over the cells, for all channels at once: the places are the same. */
function fitPlanes(grid: Grid, cells: readonly number[]): Planes {
  let [x, y, xx, xy, yy] = [0, 0, 0, 0, 0];
  const sums = new Float64Array(9);
  for (const i of cells) {
    const u = (columnMm(grid, i) - 74) / 74;
    const v = (rowMm(grid, i) - 52.5) / 52.5;
    x += u;
    y += v;
    xx += u * u;
    xy += u * v;
    yy += v * v;
    for (let c = 0; c < 3; c++) {
      const value = grid.rgb[3 * i + c]!;
      sums[3 * c]! += value;
      sums[3 * c + 1]! += u * value;
      sums[3 * c + 2]! += v * value;
    }
  }
  // Small ridge: cells in one line leave the tilt across it undetermined.
  const ridge = 1e-3 * cells.length;
  const planeOf = (c: number) => {
    const a = [
      [cells.length, x, y],
      [x, xx + ridge, xy],
      [y, xy, yy + ridge],
    ];
    return solveSymmetric(a, [...sums.subarray(3 * c, 3 * c + 3)]) as unknown as Plane;
  };
  return [planeOf(0), planeOf(1), planeOf(2)];
}

/** Centre of cell i, mm on the card. */
export function centreOf(grid: Grid, i: number): { xMm: number; yMm: number } {
  return { xMm: columnMm(grid, i), yMm: rowMm(grid, i) };
}

function columnMm({ x0Mm, columns, stepMm }: Grid, i: number): number {
  return x0Mm + ((i % columns) + 0.5) * stepMm;
}

function rowMm({ y0Mm, columns, stepMm }: Grid, i: number): number {
  return y0Mm + (Math.floor(i / columns) + 0.5) * stepMm;
}

/** Every so many cells are enough for a median to start from. */
const MEDIAN_STRIDE = 5;

function medianOf(grid: Grid, channel: number): number {
  const values = new Float32Array(Math.ceil((grid.columns * grid.rows) / MEDIAN_STRIDE));
  for (let i = 0; i < values.length; i++) values[i] = grid.rgb[3 * MEDIAN_STRIDE * i + channel]!;
  values.sort();
  return values[values.length >> 1]!;
}
