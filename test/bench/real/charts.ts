/** Photos of a 24-patch chart from a table of code values, each corrected by the chart's greys and a plane of light. */
import { converter, modeLab, useMode } from 'culori/fn';
import { decodeSrgb, type Triple } from '../../../src/core/colour/lab.ts';
import { fitKnownGreys } from '../../../src/core/colour/neutrals.ts';
import { solveSymmetric } from '../../../src/core/math/least-squares.ts';
import type { Row } from '../../reference/read-table.ts';

useMode(modeLab);
const toLinear = converter('lrgb');

/** The chart's patches by number, linear sRGB under D65. */
export type Patches = ReadonlyMap<number, Triple>;

export interface ChartPhoto {
  readonly id: string;
  /** The physical chart: the letter with which the id begins. */
  readonly group: string;
  /** Encoded, 0 to 1; clipped patches are left out. */
  readonly encoded: Patches;
}

/** Patches 19 to 24 are greys. */
export const LAST_COLOUR = 18;
const COLUMNS = 6;
const ROWS = 4;
/** Rounds in which greys and plane of light are fitted in turn. */
const ROUNDS = 4;
/** Weight of an even light against one patch, and misfit (ln) from which a patch has less say in the plane. */
const EVEN = 0.5;
const OFF_PLANE = 0.1;

export function photosIn(rows: readonly Row[]): ChartPhoto[] {
  const photos = new Map<string, Map<number, Triple>>();
  for (const row of rows) {
    const id = row['photo']!;
    const patches = photos.get(id) ?? new Map<number, Triple>();
    photos.set(id, patches);
    if (row['clipped'] === '1') continue;
    const level = (name: string) => Number(row[name]) / 255;
    patches.set(Number(row['patch']), [level('r'), level('g'), level('b')]);
  }
  return [...photos].map(([id, encoded]) => ({ id, group: /^[A-Za-z]*/.exec(id)![0], encoded }));
}

/** Editions of the chart by name; their Lab is under D50, adapted to D65 by Bradford's transform (culori). */
export function editionsIn(rows: readonly Row[]): Map<string, Patches> {
  const editions = new Map<string, Map<number, Triple>>();
  for (const row of rows) {
    const patches = editions.get(row['edition']!) ?? new Map<number, Triple>();
    editions.set(row['edition']!, patches);
    const { r, g, b } = toLinear({ mode: 'lab', l: Number(row['L']), a: Number(row['a']), b: Number(row['b']) });
    patches.set(Number(row['patch']), [r, g, b]);
  }
  return editions;
}

export function placeOf(patch: number): { x: number; y: number } {
  const [column, row] = [(patch - 1) % COLUMNS, Math.floor((patch - 1) / COLUMNS)];
  return { x: (2 * column) / (COLUMNS - 1) - 1, y: (2 * row) / (ROWS - 1) - 1 };
}

/**
 * The photo's colours after the project's own fit of the greys. One row of greys can't tell how light falls off over the chart,
 * so a plane of it is fitted to the lightness of all patches, in turn with the greys.
 * @returns null where fewer than four greys are unclipped
 */
export function correctedBy(photo: ChartPhoto, edition: Patches): Patches | null {
  const linear = [...photo.encoded].map(([patch, rgb]) => ({
    patch,
    ...placeOf(patch),
    seen: rgb.map(decodeSrgb) as unknown as Triple,
    known: edition.get(patch)!,
  }));
  const greys = linear.filter(({ patch }) => patch > LAST_COLOUR);
  if (greys.length < 4) return null;
  let plane = [0, 0, 0];
  let corrected: { patch: number; x: number; y: number; known: Triple; found: Triple }[] = [];
  for (let round = 0; round < ROUNDS; round++) {
    const lit = ({ seen, x, y }: (typeof linear)[number]) => {
      const light = Math.exp(plane[0]! + plane[1]! * x + plane[2]! * y);
      return seen.map((value) => value / light) as unknown as Triple;
    };
    // Place (0, 0) for all: the plane has the light.
    const correct = fitKnownGreys(greys.map((grey) => ({ linear: lit(grey), x: 0, y: 0, reflectance: grey.known })));
    corrected = linear.map((one) => ({ ...one, found: correct(lit(one), { x: 0, y: 0 }) }));
    const more = planeOf(corrected);
    plane = plane.map((value, i) => value + more[i]!);
  }
  return new Map(corrected.map(({ patch, found }) => [patch, found]));
}

const luminance = ([r, g, b]: Triple) => Math.max(1e-3, 0.2126 * r + 0.7152 * g + 0.0722 * b);

function planeOf(patches: readonly { x: number; y: number; known: Triple; found: Triple }[]): number[] {
  const seen = patches.map(({ x, y, known, found }) => ({
    at: [1, x, y],
    off: Math.log(luminance(found) / luminance(known)),
  }));
  let weights = seen.map(() => 1);
  let plane = [0, 0, 0];
  for (let round = 0; round < 4; round++) {
    const normal = [0, 1, 2].map((i) =>
      [0, 1, 2].map((j) => seen.reduce((sum, { at }, n) => sum + weights[n]! * at[i]! * at[j]!, i === j ? EVEN : 0)),
    );
    const right = [0, 1, 2].map((i) => seen.reduce((sum, { at, off }, n) => sum + weights[n]! * at[i]! * off, 0));
    plane = solveSymmetric(normal, right);
    weights = seen.map(
      ({ at, off }) =>
        1 / (1 + ((off - at[0]! * plane[0]! - at[1]! * plane[1]! - at[2]! * plane[2]!) / OFF_PLANE) ** 2),
    );
  }
  return plane;
}
