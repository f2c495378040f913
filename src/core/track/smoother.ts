/**
 * What later numbers say about earlier states: the modified Bryson-Frazier recursion (Bierman, Fixed interval smoothing
 * with discrete measurements, International Journal of Control 18, 1973, 65-75; in other letters Durbin & Koopman 2012,
 * sections 4.4 and 6.4). It runs back over the filter's steps and inverts nothing.
 */
import { sumOver, type Filter, type FilterStep, type Row } from './filter.ts';

export interface Smoothed {
  /** As given to `Filter.mark`. */
  readonly id: number;
  /** Of the filter's places to smooth, in their order; so are the next two. */
  readonly mean: Float64Array;
  /**
   * A sudden change of one place at this moment, tested against all numbers: its size over its own doubt, a standard
   * normal where nothing happened (de Jong & Penzer, Diagnosing shocks in time series, JASA 93, 1998, 796-806). 0 where
   * nothing that was seen could tell.
   */
  readonly shock: Float64Array;
  /** The change itself where there was one, its best guess. */
  readonly shockSize: Float64Array;
  /** As asked for. */
  readonly sums: readonly { readonly mean: number; readonly variance: number }[];
}

/** How far a number lies from what all others say of it, over the doubt of that (Durbin & Koopman 2012, section 7.5). */
export interface Misfit {
  /** As given to `Filter.observe`. */
  readonly id: number;
  readonly size: number;
  /** By how much the number draws what all say of its row towards itself. */
  readonly pull: number;
}

/**
 * @param sums of smoothed places, by their order among them, whose mean and variance are wanted
 * @returns the marked states and the numbers' misfits, both in the order of time
 */
export function smooth(
  { steps, smoothed: places, state: { size } }: Filter,
  sums: readonly (readonly number[])[] = [],
): { readonly states: Smoothed[]; readonly misfits: Misfit[] } {
  const later = { r: new Float64Array(size), N: new Float64Array(size * size), scratch: new Float64Array(size) };
  const states: Smoothed[] = [];
  const misfits: Misfit[] = [];
  for (let i = steps.length - 1; i >= 0; i--) {
    const step = steps[i]!;
    if (step.kind === 'marked') states.push(smoothed(step, places, later, sums));
    else if (step.kind === 'observed') misfits.push(before(step, later));
    else through(step, later);
  }
  return { states: states.reverse(), misfits: misfits.reverse() };
}

/** What the numbers after a moment say: the adjoint state, its covariance, and room to work in. */
interface Later {
  readonly r: Float64Array;
  readonly N: Float64Array;
  readonly scratch: Float64Array;
}

type Observed = Extract<FilterStep, { kind: 'observed' }>;

/** r <- h v / s + L' r, N <- h h' / s + L' N L, with L = I - k h', k = gain / s. */
function before({ id, row, innovation, variance, gain }: Observed, { r, N, scratch: along }: Later): Misfit {
  const size = along.length;
  let gainTimesR = 0;
  let twice = 0;
  for (let i = 0; i < size; i++) {
    gainTimesR += gain[i]! * r[i]!;
    const from = i * size;
    let sum = 0;
    for (let k = 0; k < size; k++) sum += N[from + k]! * gain[k]!;
    along[i] = sum / variance;
    twice += gain[i]! * along[i]!;
  }
  twice /= variance;
  for (let i = 0; i < row.length; i += 2) {
    const place = row[i]!;
    const weight = row[i + 1]!;
    for (let k = 0; k < size; k++) {
      N[place * size + k]! -= weight * along[k]!;
      N[k * size + place]! -= weight * along[k]!;
    }
  }
  const pull = (innovation - gainTimesR) / variance;
  const known = twice + 1 / variance;
  for (let i = 0; i < row.length; i += 2) {
    const place = row[i]!;
    const weight = row[i + 1]!;
    r[place]! += weight * pull;
    for (let k = 0; k < row.length; k += 2) N[place * size + row[k]!]! += weight * row[k + 1]! * known;
  }
  // What is left of it, without it and with it: the second is its error's variance times `pull`.
  const errorVariance = variance - sumOver(row, gain, 0);
  return { id, size: pull / Math.sqrt(known), pull: pull / known - errorVariance * pull };
}

type Moved = Extract<FilterStep, { kind: 'moved' }>;

/** r <- F' r, N <- F' N F, where F is the identity but for one row. */
function through({ place, row }: Moved, { r, N, scratch: line }: Later): void {
  const size = line.length;
  const taken = r[place]!;
  r[place] = 0;
  addTimes(row, taken, r, 0, 1);
  const start = place * size;
  for (let k = 0; k < size; k++) {
    line[k] = N[start + k]!;
    N[start + k] = 0;
  }
  for (let k = 0; k < size; k++) addTimes(row, line[k]!, N, k, size);
  for (let k = 0; k < size; k++) {
    const column = N[k * size + place]!;
    N[k * size + place] = 0;
    addTimes(row, column, N, k * size, 1);
  }
}

/** Adds a row, so many times, to numbers that begin at a place and lie so far apart. */
function addTimes(row: Row, times: number, into: Float64Array, start: number, apart: number): void {
  for (let i = 0; i < row.length; i += 2) into[start + row[i]! * apart]! += row[i + 1]! * times;
}

type Marked = Extract<FilterStep, { kind: 'marked' }>;

function smoothed(
  { id, mean, rows }: Marked,
  places: readonly number[],
  { r, N }: Later,
  sums: readonly (readonly number[])[],
): Smoothed {
  const size = r.length;
  const means = mean.slice();
  const shock = new Float64Array(places.length);
  const shockSize = new Float64Array(places.length);
  for (let i = 0; i < places.length; i++) {
    for (let k = 0; k < size; k++) means[i]! += rows[i * size + k]! * r[k]!;
    const place = places[i]!;
    const known = N[place * size + place]!;
    if (known > 0) {
      shock[i] = r[place]! / Math.sqrt(known);
      shockSize[i] = r[place]! / known;
    }
  }
  const summed = sums.map((some) => ({
    mean: some.reduce((sum, i) => sum + means[i]!, 0),
    variance: varianceOfSum(some, rows, places, N, size),
  }));
  return { id, mean: means, shock, shockSize, sums: summed };
}

/** w' (P - P N P) w for a sum of places. */
function varianceOfSum(
  some: readonly number[],
  rows: Float64Array,
  places: readonly number[],
  N: Float64Array,
  size: number,
): number {
  const along = new Float64Array(size);
  for (const i of some) for (let k = 0; k < size; k++) along[k]! += rows[i * size + k]!;
  let variance = 0;
  for (const i of some) variance += along[places[i]!]!;
  for (let k = 0; k < size; k++) {
    for (let j = 0; j < size; j++) variance -= along[k]! * N[k * size + j]! * along[j]!;
  }
  return Math.max(0, variance);
}
