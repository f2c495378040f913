/** Printed things full of squares, such as a finder of squares might take for the card's. */
import type { Random } from '../random.ts';
import type { Colour } from './texture.ts';
import type { Clutter } from './types.ts';

/** Colour at a place (u, v) from the thing's middle, mm, at a depth inside its edge. */
export type Painter = (u: number, v: number, depthMm: number) => Colour;

/** Black and white cells with framed squares in three corners, as such codes have. */
export function matrixCode(
  { widthMm, heightMm }: Clutter,
  random: Random,
  { paper, ink }: Record<'paper' | 'ink', Colour>,
): Painter {
  const cells = random.pick([21, 25, 29]);
  const quiet = 4;
  const bits = Array.from({ length: cells * cells }, () => random.chance(0.5));
  const cornerAt = (column: number, row: number): boolean | null => {
    for (const [left, top] of [
      [0, 0],
      [cells - 7, 0],
      [0, cells - 7],
    ] as const) {
      const [x, y] = [column - left, row - top];
      if (x < -1 || y < -1 || x > 7 || y > 7) continue;
      const ring = Math.max(Math.abs(x - 3), Math.abs(y - 3));
      return ring <= 1 || ring === 3;
    }
    return null;
  };
  return (u, v) => {
    const column = Math.floor((u / widthMm + 0.5) * (cells + 2 * quiet)) - quiet;
    const row = Math.floor((v / heightMm + 0.5) * (cells + 2 * quiet)) - quiet;
    if (column < 0 || row < 0 || column >= cells || row >= cells) return paper;
    return (cornerAt(column, row) ?? bits[row * cells + column]!) ? ink : paper;
  };
}

/** A month's grid: framed boxes, some of them filled, each with a number's worth of ink. */
export function calendarPage(
  { widthMm, heightMm }: Clutter,
  random: Random,
  { paper, ink, band }: Record<'paper' | 'ink' | 'band', Colour>,
): Painter {
  const [columns, rows] = [7, 5];
  const filled = Array.from({ length: columns * rows }, () => random.chance(0.2));
  return (u, v) => {
    const [x, y] = [(u / widthMm + 0.5) * columns * 1.06 - 0.2, (v / heightMm + 0.5) * rows * 1.3 - 1.2];
    if (y < -0.3) return y > -0.9 && x > 0 && x < columns ? band : paper;
    const [column, row] = [Math.floor(x), Math.floor(y)];
    if (column < 0 || row < 0 || column >= columns || row >= rows) return paper;
    const [fx, fy] = [x - column, y - row];
    const edge = Math.min(fx, fy, 1 - fx, 1 - fy);
    if (edge < 0.05) return ink;
    if (filled[row * columns + column]! && edge > 0.12) return ink;
    return fx > 0.15 && fx < 0.4 && fy > 0.15 && fy < 0.4 ? ink : paper;
  };
}
