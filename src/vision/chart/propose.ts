/** Rows of blocks for the visitor to accept: those of one chart, sampled, with pale ends filled in. */
import type { Point } from '../../core/card/homography.ts';
import type { Pixels } from '../pixels.ts';
import { type Candidate, findCandidates } from './candidates.ts';
import type { Plane } from './plane.ts';
import { type Chain, findChains } from './rows.ts';
import { type BlockFound, sampleBlock } from './sample-block.ts';

/** Rows of one chart: nearly parallel, of like pitch, and not further apart than this many pitches. */
const MAX_TURN = 0.15;
const PITCH_RATIO = 1.35;
const MAX_APART = 4;
/** A block at a row's end that hardly differs from the label around it must still do so by this much, levels. */
const MIN_DIFFERENCE = 2.2;
const IN_LINE = 0.3;

/** @returns rows from top to bottom, blocks from left to right (or, where rows are upright, the other way about) */
export function proposeRows(photo: Pixels, plane: Plane): BlockFound[][] {
  const candidates = findCandidates(photo, plane);
  const rows = findChains(candidates).map((chain) => lineOf(candidates, chain));
  const chart = largestGroup(rows);
  const whole = chart.map((row) => withPaleEnds(photo, plane, row, chart));
  return inOrder(whole).map((row) => row.places.flatMap((place) => blockAt(photo, plane, place)));
}

function blockAt(photo: Pixels, plane: Plane, placeMm: Point): BlockFound[] {
  const { block } = sampleBlock(photo, plane, plane.toPhoto(placeMm), '');
  return block ? [block] : [];
}

interface Line {
  /** Middles of its blocks on the card's plane, mm, in order. */
  readonly places: readonly Point[];
  /** Mean step from one to the next. */
  readonly step: Point;
  readonly pitch: number;
  /** Of a block, mm. */
  readonly sides: readonly [number, number];
}

function lineOf(candidates: readonly Candidate[], { members }: Chain): Line {
  const own = members.map((i) => candidates[i]!);
  const places = own.map(({ centreMm }) => centreMm);
  const [first, last] = [places[0]!, places.at(-1)!];
  const count = places.length - 1;
  const step: Point = [(last[0] - first[0]) / count, (last[1] - first[1]) / count];
  const middle = (k: 0 | 1) => own.map(({ sidesMm }) => sidesMm[k]).sort((a, b) => a - b)[own.length >> 1]!;
  return { places, step, pitch: Math.hypot(...step), sides: [middle(0), middle(1)] };
}

function largestGroup(lines: readonly Line[]): Line[] {
  let best: Line[] = [];
  const size = (group: readonly Line[]) => group.reduce((sum, { places }) => sum + places.length, 0);
  for (const seed of lines) {
    const group = [seed];
    for (let grown = true; grown;) {
      const more = lines.filter((line) => !group.includes(line) && group.some((one) => belongTogether(one, line)));
      group.push(...more);
      grown = more.length > 0;
    }
    if (size(group) > size(best)) best = group;
  }
  return best;
}

function belongTogether(one: Line, other: Line): boolean {
  const turn = (one.step[0] * other.step[1] - one.step[1] * other.step[0]) / (one.pitch * other.pitch);
  const ratio = one.pitch / other.pitch;
  if (Math.abs(turn) > MAX_TURN || ratio > PITCH_RATIO || ratio < 1 / PITCH_RATIO) return false;
  const along = alongOf(one, other.places[0]!);
  const across = Math.abs(acrossOf(one, other.places[0]!));
  return across < MAX_APART * one.pitch && Math.abs(along) < (one.places.length + 2) * one.pitch;
}

function alongOf({ places, step, pitch }: Line, [x, y]: Point): number {
  return ((x - places[0]![0]) * step[0] + (y - places[0]![1]) * step[1]) / pitch;
}

function acrossOf({ places, step, pitch }: Line, [x, y]: Point): number {
  return ((y - places[0]![1]) * step[0] - (x - places[0]![0]) * step[1]) / pitch;
}

/** Where a neighbouring row has a block beyond this row's end, and something pale stands there, it belongs to the row. */
function withPaleEnds(photo: Pixels, plane: Plane, line: Line, chart: readonly Line[]): Line {
  const others = chart.filter((other) => other !== line).flatMap(({ places }) => places);
  let places = [...line.places];
  const standsBeside = (place: Point) => {
    const along = alongOf(line, place);
    return others.some((other) => Math.abs(alongOf(line, other) - along) < IN_LINE * line.pitch);
  };
  for (const sign of [-1, 1]) {
    for (;;) {
      const end = sign < 0 ? places[0]! : places.at(-1)!;
      const next: Point = [end[0] + sign * line.step[0], end[1] + sign * line.step[1]];
      if (!standsBeside(next) || !standsOut(photo, plane, next, line)) break;
      places = sign < 0 ? [next, ...places] : [...places, next];
    }
  }
  return { ...line, places };
}

/** The colour within a block's place differs from what lies above and below it. */
function standsOut(photo: Pixels, plane: Plane, [x, y]: Point, { step, pitch, sides }: Line): boolean {
  const [ux, uy] = [step[0] / pitch, step[1] / pitch];
  const height = sides[1];
  const off = height / 2 + 1.2;
  const inner = meanAbout(photo, plane, [x, y], 0.3 * height);
  const above = meanAbout(photo, plane, [x + uy * off, y - ux * off], 0.5);
  const below = meanAbout(photo, plane, [x - uy * off, y + ux * off], 0.5);
  if (!inner || !above || !below) return false;
  // Shading runs on evenly through the place; a block doesn't.
  const differences = inner.map((value, c) => Math.abs(value - (above[c]! + below[c]!) / 2));
  const shading = Math.max(...above.map((value, c) => Math.abs(value - below[c]!)));
  return Math.max(...differences) >= Math.max(MIN_DIFFERENCE, shading / 2);
}

function meanAbout(photo: Pixels, plane: Plane, placeMm: Point, radiusMm: number): number[] | null {
  const [x, y] = plane.toPhoto(placeMm);
  const radius = Math.max(1.5, radiusMm * plane.pxPerMmAt([x, y]));
  const sums = [0, 0, 0];
  let count = 0;
  for (let row = Math.floor(y - radius); row <= y + radius; row++) {
    for (let column = Math.floor(x - radius); column <= x + radius; column++) {
      if (row < 0 || column < 0 || row >= photo.height || column >= photo.width) return null;
      const at = (row * photo.width + column) * 4;
      for (let c = 0; c < 3; c++) sums[c]! += photo.data[at + c]!;
      count++;
    }
  }
  return sums.map((sum) => sum / count);
}

function inOrder(lines: readonly Line[]): Line[] {
  const first = lines[0];
  if (!first) return [];
  return [...lines].sort((one, other) => acrossOf(first, one.places[0]!) - acrossOf(first, other.places[0]!));
}
