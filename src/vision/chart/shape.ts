/** The outline of a set of places: its convex hull, and the smallest rectangle about it. */
import type { Point } from '../../core/card/homography.ts';

/** Andrew's monotone chain (Inf. Process. Lett. 9:216, 1979); the corners go round, none in line with its neighbours. */
export function hullOf(points: readonly Point[]): Point[] {
  const sorted = [...points].sort(([ax, ay], [bx, by]) => ax - bx || ay - by);
  const chain = (ordered: readonly Point[]) => {
    const kept: Point[] = [];
    for (const point of ordered) {
      while (kept.length > 1 && turn(kept.at(-2)!, kept.at(-1)!, point) <= 0) kept.pop();
      kept.push(point);
    }
    return kept.slice(0, -1);
  };
  return sorted.length < 3 ? sorted : [...chain(sorted), ...chain(sorted.reverse())];
}

function turn([ox, oy]: Point, [ax, ay]: Point, [bx, by]: Point): number {
  return (ax - ox) * (by - oy) - (ay - oy) * (bx - ox);
}

export interface Box {
  readonly centre: Point;
  /** Unit vector along its longer side. */
  readonly along: Point;
  readonly length: number;
  readonly width: number;
}

/** The rectangle of least area about a hull; one of its sides lies along one of the hull's. */
export function boxAround(hull: readonly Point[]): Box {
  let best: Box | null = null;
  for (const [i, [x, y]] of hull.entries()) {
    const [nextX, nextY] = hull[(i + 1) % hull.length]!;
    const side = Math.hypot(nextX - x, nextY - y);
    if (side === 0) continue;
    const box = boxAlong(hull, [(nextX - x) / side, (nextY - y) / side]);
    if (!best || box.length * box.width < best.length * best.width) best = box;
  }
  return best ?? { centre: hull[0] ?? [0, 0], along: [1, 0], length: 0, width: 0 };
}

function boxAlong(hull: readonly Point[], [ux, uy]: Point): Box {
  const along = hull.map(([x, y]) => x * ux + y * uy);
  const across = hull.map(([x, y]) => y * ux - x * uy);
  const [fromU, toU, fromV, toV] = [Math.min(...along), Math.max(...along), Math.min(...across), Math.max(...across)];
  const [u, v] = [(fromU + toU) / 2, (fromV + toV) / 2];
  const centre: Point = [u * ux - v * uy, u * uy + v * ux];
  const [length, width] = [toU - fromU, toV - fromV];
  return length >= width
    ? { centre, along: [ux, uy], length, width }
    : { centre, along: [-uy, ux], length: width, width: length };
}
