/** The slow quantities at a moment, from all that is known of them, with what was learnt and what is odd. */
import type { Estimate } from '../measurement/measurement.ts';
import { SLOW_QUANTITIES, type SlowQuantity, type TrackedPool, type TrackEvent } from './events.ts';
import { explain, type Oddity } from './oddities.ts';
import { CONTENTS, contentsOf, pass, rowOf, runSlow, VOLUME, type Assumptions, type SlowRun } from './slow-model.ts';
import { smooth } from './smoother.ts';
import type { Stretch } from './stretch.ts';

export interface SlowEstimate {
  readonly quantities: ReadonlyMap<SlowQuantity, Estimate>;
  /** Of the water; null where nothing in the log tells more of it than was stated. */
  readonly litres: Estimate | null;
  /** Of products, as shares of what their labels say; only where the log tells more of them than the labels. */
  readonly strengths: ReadonlyMap<string, Estimate>;
  readonly oddities: readonly Oddity[];
  /** Day by day from the last event on, if nothing is done; empty where nobody asked for it. */
  readonly ahead: readonly DayAhead[];
  /** From the first reading on, by all that was read before and after; empty where nobody asked for it. */
  readonly course: ReadonlyMap<SlowQuantity, readonly CoursePoint[]>;
}

export interface DayAhead {
  readonly day: number;
  readonly quantities: ReadonlyMap<SlowQuantity, Estimate>;
}

export interface CoursePoint extends Estimate {
  /** Days, as events count them. Twice where something changed at once. */
  readonly day: number;
}

/**
 * How much of a photo's error its scale always has isn't told with a reading; how much readings scatter tells. In
 * simulation photos of one scale differ by 0.25 block steps and share 0.1 (0.14 of the variance) or 0.3 (0.6). Any share is
 * as likely as another beforehand: the middles of quarters.
 */
const SHARES = [0.125, 0.375, 0.625, 0.875] as const;
/** Standard normal quantile of 0.95. */
const Z90 = 1.644853627;

/** @returns null where nothing was read */
export function estimateSlow(
  pool: TrackedPool,
  events: readonly TrackEvent[],
  at: number,
  { withCourse = false, daysAhead = 0 }: { readonly withCourse?: boolean; readonly daysAhead?: number } = {},
): SlowEstimate | null {
  const known = events.filter((event) => event.day <= at);
  const read = new Set(known.flatMap((event) => (event.kind === 'read' ? [event.quantity] : [])));
  if (read.size === 0) return null;
  const plain = weightsOf(runsOf(pool, known, at, NOTHING_ODD));
  const likeliest = SHARES.reduce((sum, share, i) => sum + share * plain[i]!, 0);
  const { oddities, assumptions } = explain(pool, known, likeliest);
  const runs = runsOf(pool, known, at, assumptions);
  const weights = weightsOf(runs);
  const asked = SLOW_QUANTITIES.filter((quantity) => read.has(quantity));
  const quantities = estimatesOf(runs, weights, asked);
  const last = known.at(-1)!.day;
  const ahead = daysAhead > 0 ? aheadOf(runsOf(pool, known, last, assumptions), weights, asked, last, daysAhead) : [];
  const course = withCourse
    ? courseOf(pool, known, at, assumptions, quantities)
    : new Map<SlowQuantity, CoursePoint[]>();
  const litres = scaled(pool.litres, mixture(runs, weights, [[VOLUME, 1]]), pool.doubt);
  return { quantities, litres, strengths: strengthsIn(runs, weights), oddities, course, ahead };
}

function estimatesOf(
  runs: readonly SlowRun[],
  weights: readonly number[],
  asked: readonly SlowQuantity[],
): Map<SlowQuantity, Estimate> {
  return new Map(
    asked.map((quantity) => {
      const { mean, deviation } = mixture(runs, weights, rowOf(quantity));
      return [quantity, inBlocks(mean, deviation, shapeOf(runs[0]!, quantity))];
    }),
  );
}

/** Of the errors of what mostly read a quantity. */
function shapeOf({ methods }: SlowRun, quantity: SlowQuantity): Stretch {
  const own = [...methods].filter(([key]) => key.startsWith(`${quantity} `)).map(([, method]) => method);
  return own.reduce((most, one) => (one.count > most.count ? one : most)).stretch;
}

/** @param runs up to the last event; they go on from there */
function aheadOf(
  runs: readonly SlowRun[],
  weights: readonly number[],
  asked: readonly SlowQuantity[],
  last: number,
  days: number,
): DayAhead[] {
  return Array.from({ length: days + 1 }, (_, i) => {
    if (i > 0) for (const { filter } of runs) pass(filter, 1);
    return { day: last + i, quantities: estimatesOf(runs, weights, asked) };
  });
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

/** What is left of the doubt is mostly a method's bias, and that is as large in blocks on either side, not in mg/L. */
function inBlocks(mean: number, deviation: number, { deviationAt, from }: Stretch): Estimate {
  const value = Math.max(0, mean);
  const blocks = (Z90 * deviation) / deviationAt(value);
  return { value, low: Math.max(0, from(value, -blocks)), high: from(value, blocks) };
}

function strengthsIn(runs: readonly SlowRun[], weights: readonly number[]): Map<string, Estimate> {
  const told = [...runs[0]!.strengths].flatMap(([id, { place, doubt }]) => {
    const estimate = scaled(1, mixture(runs, weights, [[place, 1]]), doubt);
    return estimate ? [[id, estimate] as const] : [];
  });
  return new Map(told);
}

/** Of a logarithm; told where the log has taken away a third of the doubt. */
function scaled(one: number, { mean, deviation }: { mean: number; deviation: number }, doubt: number): Estimate | null {
  if (deviation > (2 / 3) * doubt) return null;
  const [value, low, high] = [0, -Z90, Z90].map((z) => one * Math.exp(mean + z * deviation));
  return { value: value!, low: low!, high: high! };
}
