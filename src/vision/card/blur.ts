/** How blurred the photo is, from the card's own edges that have the most room on both sides. */
import { NEUTRALS, type Neutral } from '../../core/card/geometry.ts';
import type { Point } from '../../core/card/homography.ts';
import type { Photo } from '../pixels.ts';
import { brightnessAlong } from './grey.ts';
import { mean } from '../../core/math/average.ts';

/** An edge of a dark patch: from (xMm, yMm) it runs `along`, mm; the unit vector `out` points to the paper. */
interface Edge {
  readonly xMm: number;
  readonly yMm: number;
  readonly along: Point;
  readonly out: Point;
}

/** On each side of these edges nothing else is printed for this far, mm. */
const REACH_MM = 3.2;
const STEP_MM = 0.05;
/** The ends of the profile, where ink and paper are taken to be themselves, mm. */
const PLATEAU_MM = 0.8;
/** Places along an edge, away from the patch's corners. */
const STATIONS = Array.from({ length: 25 }, (_, i) => 0.28 + (0.44 * i) / 24);
const MIN_CONTRAST = 10;
/** Between a quarter and three quarters of its height an edge blurred by a Gaussian takes this many deviations. */
const QUARTILES = 1.349;

/** Edges that run along x, then edges that run along y. */
const EDGES: readonly (readonly Edge[])[] = [
  [bottomOf(patch('nt6')), topOf(patch('nb3'))],
  [rightOf(patch('nt8')), leftOf(patch('nb1'))],
];

/**
 * @param toPhoto from the card, mm, to the photo, px
 * @returns standard deviation of the blur in the worse direction, half a pixel of the photo's own grain included, mm on
 *   the card; null where no edge can be followed
 */
export function measureBlur(photo: Photo, toPhoto: (xMm: number, yMm: number) => Point): number | null {
  let worst: number | null = null;
  for (const edges of EDGES) {
    const spreads = edges.flatMap((edge) => spreadOf(profileAcross(photo, toPhoto, edge)) ?? []);
    // What covers one edge, or a shadow on it, only makes it wider.
    if (spreads.length > 0) worst = Math.max(worst ?? 0, Math.min(...spreads));
  }
  return worst;
}

/** Mean brightness from REACH_MM inside the ink to REACH_MM out on the paper. */
function profileAcross(photo: Photo, toPhoto: (xMm: number, yMm: number) => Point, edge: Edge): number[] {
  const steps = Math.round((2 * REACH_MM) / STEP_MM);
  const sums = new Array<number>(steps + 1).fill(0);
  const line = new Float64Array(steps + 1);
  for (const station of STATIONS) {
    const at = (mm: number): Point =>
      toPhoto(
        edge.xMm + station * edge.along[0] + mm * edge.out[0],
        edge.yMm + station * edge.along[1] + mm * edge.out[1],
      );
    const [from, to] = [at(-REACH_MM), at(REACH_MM)];
    const [dx, dy] = [(to[0] - from[0]) / steps, (to[1] - from[1]) / steps];
    brightnessAlong(photo, { x: from[0], y: from[1], dx, dy }, line, 0, steps + 1);
    for (let i = 0; i <= steps; i++) sums[i]! += line[i]!;
  }
  return sums.map((sum) => sum / STATIONS.length);
}

function spreadOf(profile: readonly number[]): number | null {
  const plateau = Math.round(PLATEAU_MM / STEP_MM);
  const ink = mean(profile.slice(0, plateau));
  const paper = mean(profile.slice(-plateau));
  if (paper - ink < MIN_CONTRAST) return null;
  const low = lastBelow(profile, ink + (paper - ink) / 4);
  const high = lastBelow(profile, paper - (paper - ink) / 4);
  return low === null || high === null ? null : ((high - low) * STEP_MM) / QUARTILES;
}

/** Where the profile last rises through a level, in steps. */
function lastBelow(profile: readonly number[], level: number): number | null {
  for (let i = profile.length - 2; i >= 0; i--) {
    const [here, next] = [profile[i]!, profile[i + 1]!];
    if (here < level && next >= level) return i + (level - here) / (next - here);
  }
  return null;
}

function patch(id: string): Neutral {
  const found = NEUTRALS.find((neutral) => neutral.id === id);
  if (!found) throw new Error(`the card has no patch ${id}`);
  return found;
}

function topOf({ xMm, yMm, widthMm }: Neutral): Edge {
  return { xMm, yMm, along: [widthMm, 0], out: [0, -1] };
}

function bottomOf({ xMm, yMm, widthMm, heightMm }: Neutral): Edge {
  return { xMm, yMm: yMm + heightMm, along: [widthMm, 0], out: [0, 1] };
}

function leftOf({ xMm, yMm, heightMm }: Neutral): Edge {
  return { xMm, yMm, along: [0, heightMm], out: [-1, 0] };
}

function rightOf({ xMm, yMm, widthMm, heightMm }: Neutral): Edge {
  return { xMm: xMm + widthMm, yMm, along: [0, heightMm], out: [1, 0] };
}
