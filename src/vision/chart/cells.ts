/** Part of the photo as cells of several pixels: less noise, and the same work whatever the camera. */
import type { Point } from '../../core/card/homography.ts';
import type { Pixels } from '../pixels.ts';

export interface Cells {
  /** In the photo, px: the first cell's top left corner, and a cell's side. */
  readonly x0: number;
  readonly y0: number;
  readonly side: number;
  readonly columns: number;
  readonly rows: number;
  /** Mean encoded colour, three numbers (0-255) a cell, row by row. */
  readonly rgb: Float32Array;
}

/** @param side whole pixels */
export function cellsOf(
  photo: Pixels,
  area: { left: number; top: number; right: number; bottom: number },
  side: number,
): Cells {
  const x0 = Math.max(0, Math.floor(area.left));
  const y0 = Math.max(0, Math.floor(area.top));
  const columns = Math.max(0, Math.floor((Math.min(photo.width, area.right) - x0) / side));
  const rows = Math.max(0, Math.floor((Math.min(photo.height, area.bottom) - y0) / side));
  const rgb = new Float32Array(columns * rows * 3);
  const share = 1 / (side * side);
  for (let row = 0; row < rows; row++) {
    for (let line = 0; line < side; line++) {
      let from = ((y0 + row * side + line) * photo.width + x0) * 4;
      for (let column = 0; column < columns; column++) {
        const to = (row * columns + column) * 3;
        for (let i = 0; i < side; i++, from += 4) {
          rgb[to]! += photo.data[from]! * share;
          rgb[to + 1]! += photo.data[from + 1]! * share;
          rgb[to + 2]! += photo.data[from + 2]! * share;
        }
      }
    }
  }
  return { x0, y0, side, columns, rows, rgb };
}

/** Centre of a cell in the photo, px. */
export function centreOf({ x0, y0, side, columns }: Cells, cell: number): Point {
  return [x0 + ((cell % columns) + 0.5) * side, y0 + (Math.floor(cell / columns) + 0.5) * side];
}

/** The cell that holds a place in the photo; -1 outside. */
export function cellAt({ x0, y0, side, columns, rows }: Cells, [x, y]: Point): number {
  const column = Math.floor((x - x0) / side);
  const row = Math.floor((y - y0) / side);
  return column < 0 || row < 0 || column >= columns || row >= rows ? -1 : row * columns + column;
}

/** Largest difference of a channel between two cells, levels. */
export function stepBetween({ rgb }: Cells, one: number, other: number): number {
  const [a, b] = [one * 3, other * 3];
  return Math.max(
    Math.abs(rgb[a]! - rgb[b]!),
    Math.abs(rgb[a + 1]! - rgb[b + 1]!),
    Math.abs(rgb[a + 2]! - rgb[b + 2]!),
  );
}

/** Each cell replaced by the mean of it and its eight neighbours. */
export function smoothed(cells: Cells): Cells {
  const { columns, rows, rgb } = cells;
  const across = new Float32Array(rgb.length);
  const out = new Float32Array(rgb.length);
  const pass = (from: Float32Array, to: Float32Array, step: number, count: (i: number) => number, length: number) => {
    for (let i = 0; i < columns * rows; i++) {
      const at = count(i);
      const before = at > 0 ? i - step : i;
      const after = at < length - 1 ? i + step : i;
      for (let c = 0; c < 3; c++) {
        to[3 * i + c] = (from[3 * before + c]! + from[3 * i + c]! + from[3 * after + c]!) / 3;
      }
    }
  };
  pass(rgb, across, 1, (i) => i % columns, columns);
  pass(across, out, columns, (i) => Math.floor(i / columns), rows);
  return { ...cells, rgb: out };
}
