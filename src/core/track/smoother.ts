/**
 * What later numbers say about earlier states: the modified Bryson-Frazier recursion (Bierman, Fixed interval smoothing
 * with discrete measurements, International Journal of Control 18, 1973, 65-75; in other letters Durbin & Koopman 2012,
 * sections 4.4 and 6.4). It runs back over the filter's steps and inverts nothing.
 */
import type { FilterStep, Gaussian } from './filter.ts';

export interface Smoothed {
  /** As given to `Filter.mark`. */
  readonly id: number;
  readonly mean: Float64Array;
  /** The diagonal of the covariance. */
  readonly variance: Float64Array;
  /**
   * A sudden change of one place at this moment, tested against all numbers: its size over its own doubt, a standard
   * normal where nothing happened (de Jong & Penzer, Diagnosing shocks in time series, JASA 93, 1998, 796-806). 0 where
   * nothing that was seen could tell.
   */
  readonly shock: Float64Array;
  /** The change itself where there was one, its best guess. */
  readonly shockSize: Float64Array;
  /** Of sums of places, as asked for. */
  readonly sums: readonly { readonly mean: number; readonly variance: number }[];
}

/** How far a number lies from what all others say of it, over the doubt of that (Durbin & Koopman 2012, section 7.5). */
export interface Misfit {
  /** As given to `Filter.observe`. */
  readonly id: number;
  readonly size: number;
}

/**
 * @param places of the state to smooth; the others are left 0
 * @param sums of places that are wanted as one number
 * @returns the marked states and the numbers' misfits, both in the order of time
 */
export function smooth(
  steps: readonly FilterStep[],
  size: number,
  places: readonly number[],
  sums: readonly (readonly number[])[] = [],
): { readonly states: Smoothed[]; readonly misfits: Misfit[] } {
  const adjoint = new Float64Array(size);
  const information = new Float64Array(size * size);
  const states: Smoothed[] = [];
  const misfits: Misfit[] = [];
  const scratch = new Float64Array(size);
  for (let i = steps.length - 1; i >= 0; i--) {
    const step = steps[i]!;
    if (step.kind === 'marked') states.push(smoothed(step.id, step.state, adjoint, information, places, sums));
    else if (step.kind === 'observed') misfits.push(before(step, adjoint, information, scratch));
    else through(step, adjoint, information, scratch);
  }
  return { states: states.reverse(), misfits: misfits.reverse() };
}

type Observed = Extract<FilterStep, { kind: 'observed' }>;

/** r <- h v / s + L' r, N <- h h' / s + L' N L, with L = I - k h', k = gain / s. */
function before(
  { id, row, innovation, variance, gain }: Observed,
  r: Float64Array,
  N: Float64Array,
  along: Float64Array,
): Misfit {
  const size = along.length;
  let gainTimesR = 0;
  for (let i = 0; i < size; i++) {
    gainTimesR += gain[i]! * r[i]!;
    let sum = 0;
    for (let k = 0; k < size; k++) sum += N[i * size + k]! * gain[k]!;
    along[i] = sum / variance;
  }
  let twice = 0;
  for (let i = 0; i < size; i++) twice += gain[i]! * along[i]!;
  twice /= variance;
  for (const [place, weight] of row) {
    for (let k = 0; k < size; k++) {
      N[place * size + k]! -= weight * along[k]!;
      N[k * size + place]! -= weight * along[k]!;
    }
  }
  const pull = (innovation - gainTimesR) / variance;
  const known = twice + 1 / variance;
  for (const [place, weight] of row) {
    r[place]! += weight * pull;
    for (const [other, otherWeight] of row) N[place * size + other]! += weight * otherWeight * known;
  }
  return { id, size: pull / Math.sqrt(known) };
}

type Moved = Extract<FilterStep, { kind: 'moved' }>;

/** r <- F' r, N <- F' N F, where F is the identity but for one row. */
function through({ place, row }: Moved, r: Float64Array, N: Float64Array, line: Float64Array): void {
  const size = line.length;
  const taken = r[place]!;
  r[place] = 0;
  for (const [from, weight] of row) r[from]! += weight * taken;
  const start = place * size;
  for (let k = 0; k < size; k++) {
    line[k] = N[start + k]!;
    N[start + k] = 0;
  }
  for (const [from, weight] of row) for (let k = 0; k < size; k++) N[from * size + k]! += weight * line[k]!;
  for (let k = 0; k < size; k++) {
    const column = N[k * size + place]!;
    N[k * size + place] = 0;
    for (const [from, weight] of row) N[k * size + from]! += weight * column;
  }
}

function smoothed(
  id: number,
  { size, mean, covariance }: Gaussian,
  r: Float64Array,
  N: Float64Array,
  places: readonly number[],
  sums: readonly (readonly number[])[],
): Smoothed {
  const means = new Float64Array(size);
  const variances = new Float64Array(size);
  const shock = new Float64Array(size);
  const shockSize = new Float64Array(size);
  const along = new Float64Array(size);
  for (const i of places) {
    const from = i * size;
    let change = 0;
    for (let k = 0; k < size; k++) change += covariance[from + k]! * r[k]!;
    let less = 0;
    for (let k = 0; k < size; k++) {
      let sum = 0;
      for (let j = 0; j < size; j++) sum += N[k * size + j]! * covariance[from + j]!;
      along[k] = sum;
    }
    for (let k = 0; k < size; k++) less += covariance[from + k]! * along[k]!;
    means[i] = mean[i]! + change;
    variances[i] = Math.max(0, covariance[from + i]! - less);
    const known = N[from + i]!;
    if (known > 0) {
      shock[i] = r[i]! / Math.sqrt(known);
      shockSize[i] = r[i]! / known;
    }
  }
  const summed = sums.map((some) => ({
    mean: some.reduce((sum, i) => sum + means[i]!, 0),
    variance: some.length === 1 ? variances[some[0]!]! : varianceOfSum(some, { size, mean, covariance }, N),
  }));
  return { id, mean: means, variance: variances, shock, shockSize, sums: summed };
}

/** w' (P - P N P) w for a sum of places. */
function varianceOfSum(places: readonly number[], { size, covariance }: Gaussian, N: Float64Array): number {
  const along = new Float64Array(size);
  let before = 0;
  for (const i of places) {
    for (let k = 0; k < size; k++) along[k]! += covariance[i * size + k]!;
  }
  for (const i of places) before += along[i]!;
  let less = 0;
  for (let k = 0; k < size; k++) {
    for (let j = 0; j < size; j++) less += along[k]! * N[k * size + j]! * along[j]!;
  }
  return Math.max(0, before - less);
}
