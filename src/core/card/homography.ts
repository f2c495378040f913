/**
 * The projective map between two planes, such as the card (mm) and its photo (px).
 *
 * Hartley & Zisserman, Multiple View Geometry in Computer Vision, 2nd ed. (2004):
 * normalised direct linear transformation, algorithm 4.2; refinement of the
 * geometric error in the second plane, section 4.2.3.
 */
import { solveSymmetric } from '../math/least-squares.ts';

/** A place in a plane: px or mm. */
export type Point = readonly [number, number];

/** Row by row; (x, y) goes to ((h0 x + h1 y + h2) / w, (h3 x + h4 y + h5) / w) with w = h6 x + h7 y + h8. */
export type Homography = readonly [number, number, number, number, number, number, number, number, number];

export interface Pair {
  readonly from: Point;
  readonly to: Point;
}

export function project(h: Homography, [x, y]: Point): Point {
  const w = h[6] * x + h[7] * y + h[8];
  return [(h[0] * x + h[1] * y + h[2]) / w, (h[3] * x + h[4] * y + h[5]) / w];
}

/** @throws RangeError when the map isn't one to one */
export function invert(h: Homography): Homography {
  const [a, b, c, d, e, f, g, i, j] = h;
  const adjugate: Homography = [
    e * j - f * i,
    c * i - b * j,
    b * f - c * e,
    f * g - d * j,
    a * j - c * g,
    c * d - a * f,
    d * i - e * g,
    b * g - a * i,
    a * e - b * d,
  ];
  const determinant = a * adjugate[0] + b * adjugate[3] + c * adjugate[6];
  if (!(Math.abs(determinant) > 0)) throw new RangeError('the homography has no inverse');
  return adjugate.map((value) => value / determinant) as unknown as Homography;
}

/** The product that applies `first` and then `second`. */
export function compose(second: Homography, first: Homography): Homography {
  const product: number[] = [];
  for (let row = 0; row < 9; row += 3) {
    for (let column = 0; column < 3; column++) {
      product.push(
        second[row]! * first[column]! + second[row + 1]! * first[column + 3]! + second[row + 2]! * first[column + 6]!,
      );
    }
  }
  return product as unknown as Homography;
}

/** From the unit square (0,0), (1,0), (1,1), (0,1) to four corners in that order; exact. */
export function fromUnitSquare([p, q, r, s]: readonly [Point, Point, Point, Point]): Homography {
  const dx = p[0] - q[0] + r[0] - s[0];
  const dy = p[1] - q[1] + r[1] - s[1];
  const [ax, ay] = [q[0] - r[0], q[1] - r[1]];
  const [bx, by] = [s[0] - r[0], s[1] - r[1]];
  const area = ax * by - bx * ay;
  const g = (dx * by - bx * dy) / area;
  const i = (ax * dy - dx * ay) / area;
  return [
    q[0] - p[0] + g * q[0],
    s[0] - p[0] + i * s[0],
    p[0],
    q[1] - p[1] + g * q[1],
    s[1] - p[1] + i * s[1],
    p[1],
    g,
    i,
    1,
  ];
}

/** Signed area scale of the map at a place: the determinant of its Jacobian. Negative: mirrored. */
export function areaScale(h: Homography, [x, y]: Point): number {
  const w = h[6] * x + h[7] * y + h[8];
  const [u, v] = project(h, [x, y]);
  return ((h[0] - h[6] * u) * (h[4] - h[7] * v) - (h[1] - h[7] * u) * (h[3] - h[6] * v)) / (w * w);
}

/**
 * The least-squares homography through four or more pairs; it minimises the squared distances in the `to` plane.
 * @returns null when the points don't determine one, such as when three of four lie on a line
 */
export function fitHomography(pairs: readonly Pair[]): Homography | null {
  if (pairs.length < 4) return null;
  const fromNorm = normaliser(pairs.map((pair) => pair.from));
  const toNorm = normaliser(pairs.map((pair) => pair.to));
  const normalised = pairs.map(({ from, to }) => ({ from: project(fromNorm, from), to: project(toNorm, to) }));
  try {
    let h = linearFit(normalised);
    for (let step = 0; step < REFINEMENTS; step++) h = refine(h, normalised);
    const whole = compose(invert(toNorm), compose(h, fromNorm));
    return whole.every(Number.isFinite) ? whole : null;
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}

const REFINEMENTS = 3;

/** Moves the centroid to the origin and scales the mean distance from it to the square root of 2. */
function normaliser(points: readonly Point[]): Homography {
  const n = points.length;
  const cx = points.reduce((sum, [x]) => sum + x, 0) / n;
  const cy = points.reduce((sum, [, y]) => sum + y, 0) / n;
  const mean = points.reduce((sum, [x, y]) => sum + Math.hypot(x - cx, y - cy), 0) / n;
  const s = mean > 0 ? Math.SQRT2 / mean : 1;
  return [s, 0, -s * cx, 0, s, -s * cy, 0, 0, 1];
}

/** The last element may be fixed at 1: the centroid, at the origin, never goes to infinity. */
function linearFit(pairs: readonly Pair[]): Homography {
  return solveRows(
    pairs.flatMap(({ from: [x, y], to: [u, v] }) => [
      { row: [x, y, 1, 0, 0, 0, -u * x, -u * y], right: u },
      { row: [0, 0, 0, x, y, 1, -v * x, -v * y], right: v },
    ]),
  );
}

/** One Gauss-Newton step on the geometric error. */
function refine(h: Homography, pairs: readonly Pair[]): Homography {
  const step = solveRows(
    pairs.flatMap(({ from, to }) => {
      const [x, y] = from;
      const w = h[6] * x + h[7] * y + h[8];
      const [u, v] = project(h, from);
      return [
        { row: [x, y, 1, 0, 0, 0, -u * x, -u * y].map((value) => value / w), right: to[0] - u },
        { row: [0, 0, 0, x, y, 1, -v * x, -v * y].map((value) => value / w), right: to[1] - v },
      ];
    }),
  );
  return h.map((value, i) => (i < 8 ? value + step[i]! : value)) as unknown as Homography;
}

function solveRows(rows: readonly { row: readonly number[]; right: number }[]): Homography {
  const normal = Array.from({ length: 8 }, () => new Array<number>(8).fill(0));
  const rightSide = new Array<number>(8).fill(0);
  for (const { row, right } of rows) {
    for (let i = 0; i < 8; i++) {
      rightSide[i]! += row[i]! * right;
      for (let j = 0; j <= i; j++) normal[i]![j]! += row[i]! * row[j]!;
    }
  }
  for (let i = 0; i < 8; i++) for (let j = i + 1; j < 8; j++) normal[i]![j] = normal[j]![i]!;
  return [...solveSymmetric(normal, rightSide), 1] as unknown as Homography;
}
