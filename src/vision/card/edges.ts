/** A fiducial's corners to a fraction of a pixel, from the brightness across its four sides in the full photo. */
import { FIDUCIAL_SIZE_MM } from '../../core/card/geometry.ts';
import { areaScale, fromUnitSquare, type Homography, type Point, project } from '../../core/card/homography.ts';
import type { Photo } from '../pixels.ts';
import { brightnessAlong } from './grey.ts';
import { distanceTo, fitLine, intersect, type Line } from './lines.ts';
import { isConvex, type Quad } from './quads.ts';
import { median } from '../../core/math/average.ts';

export interface SharpQuad {
  readonly corners: Quad;
  /** Blur of the photo here: standard deviation of the edge's spread, mm on the card. */
  readonly blurMm: number;
}

/* Along a line across a side, mm from the side, negative on the ink: the frame is 2 mm wide, the paper
   outside it stays clear for 2 mm or more. */
const INK_MM = [-1.3, -0.7] as const;
const PAPER_MM = [0.8, 1.7] as const;
const SEARCH_MM = 1.2;
const FIRST_MM = -1.3;
const LAST_MM = 1.7;
const MIN_STEPS = 16;
const MIN_CONTRAST = 10;

/** How finely the sides are followed. */
interface Pass {
  readonly stepPx: number;
  readonly maxSteps: number;
  /** Places along a side, away from its ends. */
  readonly stations: readonly number[];
}

/** The first only brings the rough corners near. */
const PASSES: readonly Pass[] = [
  { stepPx: 1, maxSteps: 32, stations: stations(12) },
  { stepPx: 0.5, maxSteps: 64, stations: stations(24) },
];

function stations(count: number): number[] {
  return Array.from({ length: count }, (_, i) => 0.1 + (0.8 * i) / (count - 1));
}

/**
 * @param rough clockwise or anticlockwise; within about a millimetre on the card
 * @returns corners in the same order, or null when an edge can't be followed
 */
export function sharpenCorners(photo: Photo, rough: Quad): SharpQuad | null {
  let quad = rough;
  let blurMm = 0;
  for (const pass of PASSES) {
    const toPhoto = fromUnitSquare(quad);
    const sides = [0, 1, 2, 3].map((side) => followSide(photo, toPhoto, side, pass));
    if (!sides.every((side) => side !== null)) return null;
    const corners = [3, 0, 1, 2].map((before, i) => intersect(sides[before]!.line, sides[i]!.line));
    if (!corners.every((corner) => corner !== null)) return null;
    quad = corners as unknown as Quad;
    if (!isConvex(quad) && !isConvex([quad[3], quad[2], quad[1], quad[0]])) return null;
    blurMm = sides.reduce((sum, side) => sum + side!.blurMm, 0) / 4;
  }
  return { corners: quad, blurMm };
}

interface Side {
  readonly line: Line;
  readonly blurMm: number;
}

function followSide(photo: Photo, toPhoto: Homography, side: number, pass: Pass): Side | null {
  const profiles = profilesAcross(photo, toPhoto, side, pass);
  const ink = meanBetween(profiles, INK_MM);
  const paper = meanBetween(profiles, PAPER_MM);
  if (paper - ink < MIN_CONTRAST) return null;
  const points: Point[] = [];
  const spreads: number[] = [];
  for (const profile of profiles) {
    const middle = crossing(profile, (ink + paper) / 2);
    if (middle === null) continue;
    points.push(placeOn(profile, middle));
    const quarter = (paper - ink) / 4;
    const low = crossing(profile, ink + quarter);
    const high = crossing(profile, paper - quarter);
    if (low !== null && high !== null && high > low) spreads.push((high - low) / 1.349);
  }
  const line = fitRobustly(points, pass.stations.length / 2);
  return line && { line, blurMm: spreads.length > 0 ? median(spreads) : SEARCH_MM };
}

/** Brightness along a straight line across a side, from FIRST_MM to LAST_MM in equal steps. */
interface Profile {
  readonly values: Float64Array;
  readonly from: Point;
  readonly to: Point;
}

function profilesAcross(
  photo: Photo,
  toPhoto: Homography,
  side: number,
  { stepPx, maxSteps, stations }: Pass,
): Profile[] {
  const pxPerMm = Math.sqrt(Math.abs(areaScale(toPhoto, placeBeside(side, 0.5, 0)))) / FIDUCIAL_SIZE_MM;
  const wanted = Math.ceil(((LAST_MM - FIRST_MM) * pxPerMm) / stepPx);
  const steps = Math.min(maxSteps, Math.max(MIN_STEPS, wanted));
  return stations.map((along) => {
    const from = project(toPhoto, placeBeside(side, along, FIRST_MM));
    const to = project(toPhoto, placeBeside(side, along, LAST_MM));
    const [dx, dy] = [(to[0] - from[0]) / steps, (to[1] - from[1]) / steps];
    const values = new Float64Array(steps + 1);
    brightnessAlong(photo, { x: from[0], y: from[1], dx, dy }, values, 0, steps + 1);
    return { values, from, to };
  });
}

function placeOn({ from, to }: Profile, atMm: number): Point {
  const share = (atMm - FIRST_MM) / (LAST_MM - FIRST_MM);
  return [from[0] + share * (to[0] - from[0]), from[1] + share * (to[1] - from[1])];
}

/** In the unit square: `along` 0 to 1 clockwise on a side, `outMm` outside it. */
function placeBeside(side: number, along: number, outMm: number): Point {
  const out = outMm / FIDUCIAL_SIZE_MM;
  if (side === 0) return [along, -out];
  if (side === 1) return [1 + out, along];
  if (side === 2) return [1 - along, 1 + out];
  return [-out, 1 - along];
}

function meanBetween(profiles: readonly Profile[], [fromMm, toMm]: readonly [number, number]): number {
  const steps = profiles[0]!.values.length - 1;
  const from = Math.round((steps * (fromMm - FIRST_MM)) / (LAST_MM - FIRST_MM));
  const to = Math.round((steps * (toMm - FIRST_MM)) / (LAST_MM - FIRST_MM));
  let sum = 0;
  for (const { values } of profiles) for (let i = from; i <= to; i++) sum += values[i]!;
  return sum / (profiles.length * (to - from + 1));
}

/** Where the brightness rises through a level, nearest to the side; mm outside it. */
function crossing({ values }: Profile, level: number): number | null {
  const stepMm = (LAST_MM - FIRST_MM) / (values.length - 1);
  let best: number | null = null;
  for (let i = 0; i + 1 < values.length; i++) {
    const low = values[i]!;
    const high = values[i + 1]!;
    if (low > level || high <= level) continue;
    const at = FIRST_MM + (i + (level - low) / (high - low)) * stepMm;
    if (Math.abs(at) < SEARCH_MM && (best === null || Math.abs(at) < Math.abs(best))) best = at;
  }
  return best;
}

/** Leaves out points farther off than 2.5 standard deviations, judged by the median. */
function fitRobustly(points: readonly Point[], least: number): Line | null {
  let kept = points;
  for (let round = 0; round < 3; round++) {
    if (kept.length < least) return null;
    const line = fitLine(kept);
    const strays = points.map((point) => Math.abs(distanceTo(line, point)));
    const limit = Math.max(0.15, 2.5 * 1.4826 * median(strays));
    kept = points.filter((_, i) => strays[i]! <= limit);
  }
  return kept.length < least ? null : fitLine(kept);
}
