/** Straight lines through points in a picture. */
import type { Point } from '../../core/card/homography.ts';

/** The points (x, y) with nx x + ny y = c; (nx, ny) has length 1. */
export interface Line {
  readonly nx: number;
  readonly ny: number;
  readonly c: number;
}

/** Least squares of the distances at right angles to the line. */
export function fitLine(points: readonly Point[]): Line & { readonly sumOfSquares: number } {
  let [n, sx, sy, sxx, sxy, syy] = [0, 0, 0, 0, 0, 0];
  const [x0, y0] = points[0]!;
  for (const [px, py] of points) {
    const x = px - x0;
    const y = py - y0;
    n++;
    sx += x;
    sy += y;
    sxx += x * x;
    sxy += x * y;
    syy += y * y;
  }
  const [a, b, d] = [sxx - (sx * sx) / n, sxy - (sx * sy) / n, syy - (sy * sy) / n];
  const along = 0.5 * Math.atan2(2 * b, a - d);
  const [nx, ny] = [-Math.sin(along), Math.cos(along)];
  const sumOfSquares = Math.max(0, nx * nx * a + 2 * nx * ny * b + ny * ny * d);
  return { nx, ny, c: nx * (x0 + sx / n) + ny * (y0 + sy / n), sumOfSquares };
}

/** @returns null for parallel lines */
export function intersect(one: Line, other: Line): Point | null {
  const determinant = one.nx * other.ny - one.ny * other.nx;
  if (Math.abs(determinant) < 1e-6) return null;
  return [(one.c * other.ny - other.c * one.ny) / determinant, (one.nx * other.c - other.nx * one.c) / determinant];
}

export function distanceTo(line: Line, [x, y]: Point): number {
  return line.nx * x + line.ny * y - line.c;
}
