/** Rows of blocks among the candidates: alike in size, evenly spaced along a line, changing colour step by step. */
import type { Point } from '../../core/card/homography.ts';
import type { Candidate } from './candidates.ts';

const MIN_BLOCKS = 3;
/** From one block's middle to the next, in block lengths. */
const MAX_PITCH = 3;
/** How far a block may lie from where the ones before it say, as a share of the step. */
const OFF_PLACE = 0.22;
const SIZE_RATIO = 1.45;
/** A row whose colours are all within this of one another, levels, is a pattern of something else. */
const MIN_RANGE = 15;
/** A chart's colours lead from one end to the other; those of a pattern go to and fro. */
const MAX_WANDER = 2;

export interface Chain {
  /** Indexes of candidates, in order along the row. */
  readonly members: readonly number[];
  /** Mean change of colour from block to block, levels. */
  readonly roughness: number;
}

/** @returns rows that share no block, the likeliest direction of a grid chosen, the longest first */
export function findChains(candidates: readonly Candidate[]): Chain[] {
  const chains: Chain[] = [];
  for (let i = 0; i < candidates.length; i++) {
    for (let k = 0; k < candidates.length; k++) {
      const chain = i === k ? null : chainFrom(candidates, i, k);
      if (chain) chains.push(chain);
    }
  }
  return disjoint(preferDirection(candidates, chains));
}

/** Follows the step from one candidate to a second as far as it leads, where the first one begins a row. */
function chainFrom(candidates: readonly Candidate[], first: number, second: number): Chain | null {
  const [a, b] = [candidates[first]!, candidates[second]!];
  const step = difference(b.centreMm, a.centreMm);
  const size = Math.max(a.sidesMm[0], b.sidesMm[0]);
  // Each row is followed once: in the direction that leads right, or down where it is upright.
  if (!leadsOn(step) || !alikeInSize(a, b) || Math.hypot(...step) > MAX_PITCH * size) return null;
  if (nearestTo(candidates, add(a.centreMm, scaled(step, -1)), step, a) >= 0) return null;
  const members = [first, second];
  for (let last = step; ;) {
    const from = candidates[members.at(-1)!]!;
    const next = nearestTo(candidates, add(from.centreMm, last), last, from);
    if (next < 0 || members.includes(next)) break;
    last = scaled(difference(candidates[next]!.centreMm, candidates[members[0]!]!.centreMm), 1 / members.length);
    members.push(next);
  }
  if (members.length < MIN_BLOCKS) return null;
  const colours = members.map((i) => candidates[i]!.rgb);
  const steps = colours.slice(1).map((rgb, i) => between(rgb, colours[i]!));
  const whole = steps.reduce((sum, step) => sum + step, 0);
  const range = Math.max(...colours.flatMap((one) => colours.map((other) => between(one, other))));
  return range < MIN_RANGE || whole > MAX_WANDER * range ? null : { members, roughness: whole / steps.length };
}

function between(one: Candidate['rgb'], other: Candidate['rgb']): number {
  return Math.hypot(...one.map((value, c) => value - other[c]!));
}

function leadsOn([x, y]: Point): boolean {
  return Math.abs(x) >= Math.abs(y) ? x > 0 : y > 0;
}

function alikeInSize(one: Candidate, other: Candidate): boolean {
  return [0, 1].every((k) => {
    const ratio = one.sidesMm[k]! / other.sidesMm[k]!;
    return ratio < SIZE_RATIO && ratio > 1 / SIZE_RATIO;
  });
}

function nearestTo(candidates: readonly Candidate[], place: Point, step: Point, like: Candidate): number {
  let best = -1;
  let least = OFF_PLACE * Math.hypot(...step);
  candidates.forEach((candidate, i) => {
    const off = Math.hypot(...difference(candidate.centreMm, place));
    if (off < least && alikeInSize(candidate, like)) [best, least] = [i, off];
  });
  return best;
}

/** In a grid, columns are evenly spaced too: the rows are where the colour changes less from one to the next. */
function preferDirection(candidates: readonly Candidate[], chains: readonly Chain[]): Chain[] {
  const upright = chains.map(({ members }) => isUpright(candidates, members));
  const smoothness = [false, true].map((wanted) => {
    const own = chains.filter((_, i) => upright[i] === wanted);
    const weight = own.reduce((sum, { members }) => sum + members.length - 1, 0);
    const rough = own.reduce((sum, { members, roughness }) => sum + roughness * (members.length - 1), 0);
    return { weight, roughness: weight > 0 ? rough / weight : Infinity };
  }) as [{ weight: number; roughness: number }, { weight: number; roughness: number }];
  const wanted = smoothness[1].roughness < smoothness[0].roughness;
  const other = smoothness[wanted ? 0 : 1];
  // Rows of both directions only where they don't come from one grid.
  return chains.filter((_, i) => upright[i] === wanted || other.weight === 0);
}

function isUpright(candidates: readonly Candidate[], members: readonly number[]): boolean {
  const [x, y] = difference(candidates[members.at(-1)!]!.centreMm, candidates[members[0]!]!.centreMm);
  return Math.abs(y) > Math.abs(x);
}

function disjoint(chains: readonly Chain[]): Chain[] {
  const taken = new Set<number>();
  return [...chains]
    .sort((one, two) => two.members.length - one.members.length || one.roughness - two.roughness)
    .filter(({ members }) => {
      if (members.some((i) => taken.has(i))) return false;
      members.forEach((i) => taken.add(i));
      return true;
    });
}

function difference([ax, ay]: Point, [bx, by]: Point): Point {
  return [ax - bx, ay - by];
}

function add([ax, ay]: Point, [bx, by]: Point): Point {
  return [ax + bx, ay + by];
}

function scaled([x, y]: Point, factor: number): Point {
  return [x * factor, y * factor];
}
