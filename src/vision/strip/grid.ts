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
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const mean = boxMean(flat, x0Mm + (column + 0.5) * STEP_MM, y0Mm + (row + 0.5) * STEP_MM, STEP_MM);
      rgb.set(mean, (row * columns + column) * 3);
    }
  }
  return { x0Mm, y0Mm, stepMm: STEP_MM, columns, rows, rgb };
}

/** Mean encoded colour (0-255) of a square of the flattened card about a point in mm. */
export function boxMean(flat: Pixels, xMm: number, yMm: number, sizeMm: number): [number, number, number] {
  const left = Math.max(0, Math.round((xMm - sizeMm / 2) * FLAT_PX_PER_MM));
  const top = Math.max(0, Math.round((yMm - sizeMm / 2) * FLAT_PX_PER_MM));
  const right = Math.min(flat.width, Math.max(left + 1, Math.round((xMm + sizeMm / 2) * FLAT_PX_PER_MM)));
  const bottom = Math.min(flat.height, Math.max(top + 1, Math.round((yMm + sizeMm / 2) * FLAT_PX_PER_MM)));
  let [r, g, b, n] = [0, 0, 0, 0];
  for (let y = top; y < bottom; y++) {
    for (let x = left; x < right; x++) {
      const i = (y * flat.width + x) * 4;
      r += flat.data[i]!;
      g += flat.data[i + 1]!;
      b += flat.data[i + 2]!;
      n++;
    }
  }
  return n > 0 ? [r / n, g / n, b / n] : [0, 0, 0];
}

/** The slot's bare grey as a plane per channel: encoded RGB 0-255 at a place in mm. */
export type Background = (xMm: number, yMm: number) => [number, number, number];

/* How near to the slot's grey a cell must be to count as bare slot, in two passes. */
const NEARNESS = [0.25, 0.08];

/** Fits the bare slot's colour over the grid; the strip's own cells are left out as unlike the majority. */
export function fitBackground(grid: Grid): Background {
  const middle = [0, 1, 2].map((c) => medianOf(grid, c));
  let planes = middle.map((value): Plane => [value, 0, 0]);
  for (const nearness of NEARNESS) {
    const cells = bareCells(grid, planes, nearness);
    if (cells.length < 60) break;
    planes = planes.map((_, c) => fitPlane(grid, cells, c));
  }
  return (xMm, yMm) => planes.map((plane) => planeAt(plane, xMm, yMm)) as [number, number, number];
}

type Plane = readonly [number, number, number];

function planeAt(plane: Plane, xMm: number, yMm: number): number {
  return plane[0] + plane[1] * ((xMm - 74) / 74) + plane[2] * ((yMm - 52.5) / 52.5);
}

function bareCells(grid: Grid, planes: readonly Plane[], nearness: number): number[] {
  const cells: number[] = [];
  for (let i = 0; i < grid.columns * grid.rows; i++) {
    const { xMm, yMm } = centreOf(grid, i);
    const bare = planes.every((plane, c) => {
      const expected = planeAt(plane, xMm, yMm);
      return Math.abs(grid.rgb[3 * i + c]! - expected) <= nearness * expected + 2;
    });
    if (bare) cells.push(i);
  }
  return cells;
}

function fitPlane(grid: Grid, cells: readonly number[], channel: number): Plane {
  const a = [0, 1, 2].map(() => [0, 0, 0]);
  const b = [0, 0, 0];
  for (const i of cells) {
    const { xMm, yMm } = centreOf(grid, i);
    const terms = [1, (xMm - 74) / 74, (yMm - 52.5) / 52.5];
    const value = grid.rgb[3 * i + channel]!;
    terms.forEach((left, j) => {
      b[j]! += left * value;
      terms.forEach((right, k) => (a[j]![k]! += left * right));
    });
  }
  // A whisper of a ridge: cells in one line alone would leave the tilt across it unknown.
  for (let j = 1; j < 3; j++) a[j]![j]! += 1e-3 * cells.length;
  return solveSymmetric(a, b) as unknown as Plane;
}

/** Centre of cell i, mm on the card. */
export function centreOf(grid: Grid, i: number): { xMm: number; yMm: number } {
  return {
    xMm: grid.x0Mm + ((i % grid.columns) + 0.5) * grid.stepMm,
    yMm: grid.y0Mm + (Math.floor(i / grid.columns) + 0.5) * grid.stepMm,
  };
}

function medianOf(grid: Grid, channel: number): number {
  const values = new Float32Array(grid.columns * grid.rows);
  for (let i = 0; i < values.length; i++) values[i] = grid.rgb[3 * i + channel]!;
  values.sort();
  return values[values.length >> 1]!;
}
