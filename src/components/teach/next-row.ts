/** Where the next row of a chart most likely lies, so that the keys have less far to go. */
import type { Point } from '../../core/card/homography.ts';
import type { Row } from './rows.ts';

export interface RowGuess {
  readonly from: Point;
  readonly to: Point;
}

/**
 * As far below the last row as that lies below the one before it; of one row alone, as far as its blocks lie apart.
 * @returns middles of its first and last block, px in the photo; null without a row of two blocks
 */
export function nextRow(rows: readonly Row[]): RowGuess | null {
  const ends = rows.filter(({ marks }) => marks.length > 1).map(endsOf);
  const last = ends.at(-1);
  if (!last) return null;
  const before = ends.at(-2);
  const down: Point = before ? between(before.from, last.from) : besides(last);
  return { from: moved(last.from, down), to: moved(last.to, down) };
}

function endsOf({ marks }: Row): RowGuess & { readonly count: number } {
  return { from: marks[0]!.block.centre, to: marks.at(-1)!.block.centre, count: marks.length };
}

/** Square to the row, one step of its blocks, towards the lower or the right-hand side of the photo. */
function besides({ from, to, count }: RowGuess & { readonly count: number }): Point {
  const [x, y] = between(from, to);
  const step: Point = [-y / (count - 1), x / (count - 1)];
  const forwards = Math.abs(step[1]) >= Math.abs(step[0]) ? step[1] > 0 : step[0] > 0;
  return forwards ? step : [-step[0], -step[1]];
}

function between(from: Point, to: Point): Point {
  return [to[0] - from[0], to[1] - from[1]];
}

function moved([x, y]: Point, [dx, dy]: Point): Point {
  return [x + dx, y + dy];
}
