/** The inner marks: where each small disc really lies, seen from near where it should be. */
import { type Mark, MARKS } from '../../core/card/geometry.ts';
import type { Point } from '../../core/card/homography.ts';
import { isInside, type Photo } from '../pixels.ts';
import { brightnessAlong } from './grey.ts';

export interface SeenMark {
  readonly mark: Mark;
  /** Its centre as the map given had it: equal to the mark's own place where the map is right, mm. */
  readonly xMm: number;
  readonly yMm: number;
}

export type ToPhoto = (xMm: number, yMm: number) => Point;

/** Half the side of the square a disc is measured in, mm: nothing else is printed within it. */
const REACH_MM = 2.1;
const STEP_MM = 0.175;
/** Farther off than this in one step it may be something else. */
const NEAR_MM = 1.6;
/** How far off a mark is looked for where the paper curls, and how finely, mm. */
const SEARCH_MM = 6;
const SEARCH_STEP_MM = 0.3;
const ROUNDS = 4;
/** A centre that moves less than this is settled. */
const SETTLED_MM = 0.02;

/** Ink seen over the disc's own area. */
const MIN_INK = 0.6;
const MAX_INK = 1.5;
const MIN_CONTRAST = 12;
/** Spread of the ink along its longest over its shortest axis. */
const MAX_OVAL = 1.5;

/** Looks at each mark on the card's plane, not in the photo's, so that perspective doesn't shift its centre. */
export function findMarks(photo: Photo, toPhoto: ToPhoto): SeenMark[] {
  return MARKS.flatMap((mark) => {
    const start: Point = [mark.xMm, mark.yMm];
    const near = centreOf(photo, toPhoto, mark, start);
    const disc = near ? null : searchDisc(photo, toPhoto, mark);
    const centre = near ?? (disc && centreOf(photo, toPhoto, mark, disc));
    return centre ? [{ mark, xMm: centre[0], yMm: centre[1] }] : [];
  });
}

function centreOf(photo: Photo, toPhoto: ToPhoto, mark: Mark, start: Point): Point | null {
  let [xMm, yMm] = start;
  for (let round = 0; round < ROUNDS; round++) {
    const square = squareAround(photo, toPhoto, [xMm, yMm], REACH_MM, STEP_MM);
    const blot = square && inkBlot(square);
    if (!blot) return null;
    const inkShare = blot.areaMm2 / (Math.PI * (mark.diameterMm / 2) ** 2);
    if (inkShare < MIN_INK || inkShare > MAX_INK || blot.oval > MAX_OVAL) return null;
    xMm += blot.xMm;
    yMm += blot.yMm;
    if (Math.hypot(xMm - start[0], yMm - start[1]) > NEAR_MM) return null;
    if (Math.hypot(blot.xMm, blot.yMm) < SETTLED_MM) break;
  }
  return [xMm, yMm];
}

interface Square {
  readonly values: Float64Array;
  readonly side: number;
  readonly stepMm: number;
}

/** @returns brightnesses row by row on the card's plane, or null when part of it lies outside the photo */
function squareAround(photo: Photo, toPhoto: ToPhoto, centre: Point, reachMm: number, stepMm: number): Square | null {
  const half = Math.round(reachMm / stepMm);
  const side = 2 * half + 1;
  const reach = half * stepMm;
  const corner = (x: number, y: number) => toPhoto(centre[0] + x * reach, centre[1] + y * reach);
  const corners = [corner(-1, -1), corner(1, -1), corner(-1, 1), corner(1, 1)] as const;
  if (!corners.every((place) => isInside(photo, place))) return null;
  const [a, b, c, d] = corners;
  const values = new Float64Array(side * side);
  for (let row = 0; row < side; row++) {
    const v = row / (side - 1);
    const left = between(a, c, v);
    const right = between(b, d, v);
    const [dx, dy] = [(right[0] - left[0]) / (side - 1), (right[1] - left[1]) / (side - 1)];
    brightnessAlong(photo, { x: left[0], y: left[1], dx, dy }, values, row * side, side);
  }
  return { values, side, stepMm };
}

function between([ax, ay]: Point, [bx, by]: Point, share: number): Point {
  return [ax + (bx - ax) * share, ay + (by - ay) * share];
}

interface Blot {
  /** Centroid of the ink, from the square's middle. */
  readonly xMm: number;
  readonly yMm: number;
  readonly areaMm2: number;
  readonly oval: number;
}

function inkBlot({ values, side, stepMm }: Square): Blot | null {
  const border = new Float64Array(4 * side);
  for (let i = 0; i < side; i++) {
    border[4 * i] = values[i]!;
    border[4 * i + 1] = values[(side - 1) * side + i]!;
    border[4 * i + 2] = values[i * side]!;
    border[4 * i + 3] = values[i * side + side - 1]!;
  }
  const paper = quantile(border, 0.5);
  const ink = quantile(values, 0.1);
  if (paper - ink < MIN_CONTRAST) return null;
  const half = (side - 1) / 2;
  let [n, sx, sy, sxx, sxy, syy] = [0, 0, 0, 0, 0, 0];
  for (let i = 0; i < values.length; i++) {
    const share = (paper - values[i]!) / (paper - ink);
    // Faint shares are noise and shading.
    if (share < 0.25) continue;
    const weight = Math.min(1, share);
    const x = (i % side) - half;
    const y = Math.floor(i / side) - half;
    n += weight;
    sx += weight * x;
    sy += weight * y;
    sxx += weight * x * x;
    sxy += weight * x * y;
    syy += weight * y * y;
  }
  if (n === 0) return null;
  const [cx, cy] = [sx / n, sy / n];
  const [a, b, d] = [sxx / n - cx * cx, sxy / n - cx * cy, syy / n - cy * cy];
  const root = Math.hypot((a - d) / 2, b);
  const oval = Math.sqrt(((a + d) / 2 + root) / Math.max(1e-9, (a + d) / 2 - root));
  return { xMm: cx * stepMm, yMm: cy * stepMm, areaMm2: n * stepMm * stepMm, oval };
}

/* A disc seen whole: dark at these distances from its centre, bright all round at that one, mm. */
const DARK = circle(0.75, 8);
const BRIGHT = circle(1.85, 12);

/** Where, within reach, something looks most like a lone disc. */
function searchDisc(photo: Photo, toPhoto: ToPhoto, mark: Mark): Point | null {
  const square = squareAround(photo, toPhoto, [mark.xMm, mark.yMm], SEARCH_MM + 1.9, SEARCH_STEP_MM);
  if (!square) return null;
  const { values, side } = square;
  const margin = Math.ceil(1.9 / SEARCH_STEP_MM);
  const offsets = (ring: readonly Point[]) =>
    ring.map(([x, y]) => Math.round(y / SEARCH_STEP_MM) * side + Math.round(x / SEARCH_STEP_MM));
  const [dark, bright] = [offsets(DARK), offsets(BRIGHT)];
  let best: { score: number; at: number } | null = null;
  for (let row = margin; row < side - margin; row++) {
    for (let column = margin; column < side - margin; column++) {
      const at = row * side + column;
      let darkest = values[at]!;
      for (const offset of dark) darkest = Math.max(darkest, values[at + offset]!);
      let brightest = Infinity;
      for (const offset of bright) brightest = Math.min(brightest, values[at + offset]!);
      const score = brightest - darkest;
      if (score > MIN_CONTRAST && (!best || score > best.score)) best = { score, at };
    }
  }
  if (!best) return null;
  const half = (side - 1) / 2;
  return [
    mark.xMm + ((best.at % side) - half) * SEARCH_STEP_MM,
    mark.yMm + (Math.floor(best.at / side) - half) * SEARCH_STEP_MM,
  ];
}

function circle(radiusMm: number, count: number): Point[] {
  return Array.from({ length: count }, (_, i) => {
    const angle = (2 * Math.PI * i) / count;
    return [radiusMm * Math.cos(angle), radiusMm * Math.sin(angle)];
  });
}

/** One of the values, found without sorting them all (Hoare, Commun. ACM 4:321, 1961). */
function quantile(values: Float64Array, share: number): number {
  const some = values.slice();
  const wanted = Math.round(share * (some.length - 1));
  let [low, high] = [0, some.length - 1];
  while (low < high) {
    const middle = some[wanted]!;
    let i = low;
    let j = high;
    while (i <= j) {
      while (some[i]! < middle) i++;
      while (some[j]! > middle) j--;
      if (i > j) break;
      const one = some[i]!;
      some[i++] = some[j]!;
      some[j--] = one;
    }
    if (j < wanted) low = i;
    if (i > wanted) high = j;
  }
  return some[wanted]!;
}
