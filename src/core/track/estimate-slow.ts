/** The slow quantities at a moment, from all that is known of them, with what was learnt and what is odd. */
import type { Estimate } from '../measurement/measurement.ts';
import { SLOW_QUANTITIES, type SlowQuantity, type TrackedPool, type TrackEvent } from './events.ts';
import { explain, type Oddity } from './oddities.ts';
import { CONTENTS, contentsOf, rowOf, runSlow, VOLUME, type Assumptions, type SlowRun } from './slow-model.ts';
import { smooth } from './smoother.ts';

export interface SlowEstimate {
  readonly quantities: ReadonlyMap<SlowQuantity, Estimate>;
  /** Of the water; null where nothing in the log tells more of it than was stated. */
  readonly litres: Estimate | null;
  readonly oddities: readonly Oddity[];
  /** From the first reading on, by all that was read before and after; empty where nobody asked for it. */
  readonly course: ReadonlyMap<SlowQuantity, readonly CoursePoint[]>;
}

export interface CoursePoint extends Estimate {
  /** Days, as events count them. Twice where something changed at once. */
  readonly day: number;
}

/**
 * How much of a photo's error its scale always has isn't told with a reading; how much readings scatter tells. In
 * simulation photos of one scale differ by 0.25 block steps and share 0.1 (0.14 of the variance) or 0.3 (0.6).
 */
const SHARES = [0.1, 0.3, 0.5, 0.7] as const;
/** Standard normal quantile of 0.95. */
const Z90 = 1.644853627;

/** @returns null where nothing was read */
export function estimateSlow(
  pool: TrackedPool,
  events: readonly TrackEvent[],
  at: number,
  withCourse = false,
): SlowEstimate | null {
  const known = events.filter((event) => event.day <= at);
  const read = new Set(known.flatMap((event) => (event.kind === 'read' ? [event.quantity] : [])));
  if (read.size === 0) return null;
  const plain = runsOf(pool, known, at, NOTHING_ODD);
  const weighed = weightsOf(plain);
  const likeliest = SHARES.reduce((sum, share, i) => sum + share * weighed[i]!, 0);
  const { oddities, assumptions } = explain(pool, known, likeliest);
  const runs = oddities.length === 0 ? plain : runsOf(pool, known, at, assumptions);
  const weights = weightsOf(runs);
  const quantities = new Map<SlowQuantity, Estimate>();
  for (const quantity of SLOW_QUANTITIES) {
    if (!read.has(quantity)) continue;
    const { mean, deviation } = mixture(runs, weights, rowOf(quantity));
    quantities.set(quantity, bounded(mean, deviation));
  }
  const course = withCourse
    ? courseOf(pool, known, at, assumptions, quantities)
    : new Map<SlowQuantity, CoursePoint[]>();
  return { quantities, litres: litresOf(pool, runs, weights), oddities, course };
}

/** By the likeliest share alone: of the past it hardly matters. The last moment is the estimate itself. */
function courseOf(
  pool: TrackedPool,
  events: readonly TrackEvent[],
  at: number,
  assumptions: Assumptions,
  now: ReadonlyMap<SlowQuantity, Estimate>,
): Map<SlowQuantity, CoursePoint[]> {
  const { filter } = runSlow(pool, events, at, { ...assumptions, marksAll: true }, true);
  const { states } = smooth(filter.steps, filter.state.size, PLACES, [...now.keys()].map(contentsOf));
  return new Map(
    [...now].map(([quantity, last], i) => {
      const first = events.find((event) => event.kind === 'read' && event.quantity === quantity)?.day ?? at;
      const points = states
        .filter(({ id }) => id >= first && id < at)
        .map(({ id, sums }) => ({ day: id, ...bounded(sums[i]!.mean, Math.sqrt(sums[i]!.variance)) }));
      return [quantity, [...points, { day: at, ...last }]];
    }),
  );
}

const PLACES = CONTENTS.map((_, i) => i);
const NOTHING_ODD = { jumps: [], doubted: new Map<number, number>() };

function runsOf(
  pool: TrackedPool,
  events: readonly TrackEvent[],
  at: number,
  assumptions: Omit<Assumptions, 'sharedVariance'>,
): SlowRun[] {
  return SHARES.map((sharedVariance) => runSlow(pool, events, at, { ...assumptions, sharedVariance }));
}

function weightsOf(runs: readonly SlowRun[]): number[] {
  const most = Math.max(...runs.map(({ filter }) => filter.logLikelihood));
  const weights = runs.map(({ filter }) => Math.exp(filter.logLikelihood - most));
  const sum = weights.reduce((total, weight) => total + weight, 0);
  return weights.map((weight) => weight / sum);
}

function mixture(runs: readonly SlowRun[], weights: readonly number[], row: ReturnType<typeof rowOf>) {
  const means = runs.map(({ filter }) => filter.meanOf(row));
  const mean = means.reduce((sum, value, i) => sum + weights[i]! * value, 0);
  const variance = runs.reduce(
    (sum, { filter }, i) => sum + weights[i]! * (filter.varianceOf(row) + (means[i]! - mean) ** 2),
    0,
  );
  return { mean, deviation: Math.sqrt(variance) };
}

function bounded(mean: number, deviation: number): Estimate {
  const value = Math.max(0, mean);
  return { value, low: Math.max(0, value - Z90 * deviation), high: Math.max(0, mean + Z90 * deviation) };
}

/** Told where the log has taken away a third of the doubt. */
function litresOf(pool: TrackedPool, runs: readonly SlowRun[], weights: readonly number[]): Estimate | null {
  const { mean, deviation } = mixture(runs, weights, [[VOLUME, 1]]);
  if (deviation > (2 / 3) * pool.doubt) return null;
  const [value, low, high] = [0, -Z90, Z90].map((z) => pool.litres * Math.exp(mean + z * deviation));
  return { value: value!, low: low!, high: high! };
}
