/** Four-sided shapes from outlines, their sides as fitted lines. */
import type { Point } from '../../core/card/homography.ts';
import { fitLine, intersect, type Line } from './lines.ts';
import type { Outline } from './outlines.ts';

/** Clockwise as seen in the picture (y down). */
export type Quad = readonly [Point, Point, Point, Point];

/** How far an outline may stray from four straight sides: px, and as a share of the mean side. */
const STRAY_PX = 0.7;
const STRAY_SHARE = 0.018;
/** Share of a side left out at each of its ends. */
const END_SHARE = 0.12;
const MIN_SIDE_PX = 7;

/** @returns the region's four corners in the picture, or null when it isn't four-sided */
export function quadOf(outline: Outline): Quad | null {
  const corners = roughCorners(outline);
  if (!corners) return null;
  const sides: Line[] = [];
  let strays = 0;
  let used = 0;
  for (let i = 0; i < 4; i++) {
    const side = sidePoints(outline, corners[i]!, corners[(i + 1) % 4]!);
    if (side.length < 4) return null;
    const line = fitLine(side);
    strays += line.sumOfSquares;
    used += side.length;
    // The outline runs through the outermost pixels' centres; the edge itself lies half a pixel further out.
    sides.push(shiftOutward(line, outline, corners, i));
  }
  const quad = [3, 0, 1, 2].map((before, i) => intersect(sides[before]!, sides[i]!));
  if (quad.some((corner) => corner === null)) return null;
  const found = quad as unknown as Quad;
  const meanSide = perimeter(found) / 4;
  if (Math.sqrt(strays / used) > STRAY_PX + STRAY_SHARE * meanSide) return null;
  return isConvex(found) ? found : null;
}

/** Positions in the outline of four corners, in its order: ends of the longest diagonal, then the farthest to each side. */
function roughCorners(outline: Outline): [number, number, number, number] | null {
  const n = outline.length / 2;
  if (n < 4 * MIN_SIDE_PX) return null;
  let [cx, cy] = [0, 0];
  for (let i = 0; i < n; i++) {
    cx += outline[2 * i]!;
    cy += outline[2 * i + 1]!;
  }
  const first = farthest(outline, (x, y) => (x - cx / n) ** 2 + (y - cy / n) ** 2).at;
  const [ax, ay] = [outline[2 * first]!, outline[2 * first + 1]!];
  const third = farthest(outline, (x, y) => (x - ax) ** 2 + (y - ay) ** 2).at;
  const [dx, dy] = [outline[2 * third]! - ax, outline[2 * third + 1]! - ay];
  const left = farthest(outline, (x, y) => dx * (y - ay) - dy * (x - ax));
  const right = farthest(outline, (x, y) => dy * (x - ax) - dx * (y - ay));
  const least = MIN_SIDE_PX * 0.5 * Math.hypot(dx, dy);
  if (left.value < least || right.value < least) return null;
  const order = [first, left.at, third, right.at].sort((one, other) => one - other);
  return order as [number, number, number, number];
}

function farthest(outline: Outline, distance: (x: number, y: number) => number): { at: number; value: number } {
  let at = 0;
  let value = -Infinity;
  for (let i = 0; i < outline.length; i += 2) {
    const here = distance(outline[i]!, outline[i + 1]!);
    if (here > value) {
      value = here;
      at = i / 2;
    }
  }
  return { at, value };
}

function sidePoints(outline: Outline, from: number, to: number): Point[] {
  const n = outline.length / 2;
  const count = (to - from + n) % n;
  const trim = Math.max(1, Math.round(count * END_SHARE));
  const points: Point[] = [];
  for (let k = trim; k <= count - trim; k++) {
    const i = (from + k) % n;
    points.push([outline[2 * i]! + 0.5, outline[2 * i + 1]! + 0.5]);
  }
  return points;
}

function shiftOutward(line: Line, outline: Outline, corners: readonly number[], side: number): Line {
  const opposite = corners[(side + 2) % 4]!;
  const inside = line.nx * outline[2 * opposite]! + line.ny * outline[2 * opposite + 1]! - line.c;
  const step = 0.5 * Math.max(Math.abs(line.nx), Math.abs(line.ny));
  return { ...line, c: line.c - Math.sign(inside) * step };
}

function perimeter(quad: Quad): number {
  return quad.reduce((sum, [x, y], i) => {
    const [nx, ny] = quad[(i + 1) % 4]!;
    return sum + Math.hypot(nx - x, ny - y);
  }, 0);
}

/** Every corner turns clockwise (y down), by more than a sliver. */
export function isConvex(quad: Quad): boolean {
  return quad.every(([ax, ay], i) => {
    const [bx, by] = quad[(i + 1) % 4]!;
    const [cx, cy] = quad[(i + 2) % 4]!;
    const [ux, uy, vx, vy] = [bx - ax, by - ay, cx - bx, cy - by];
    return ux * vy - uy * vx > 0.15 * Math.hypot(ux, uy) * Math.hypot(vx, vy);
  });
}
