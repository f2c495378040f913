/** The slow quantities at a moment, from all that is known of them, with what was learnt and what is odd. */
import type { Estimate } from '../measurement/measurement.ts';
import { SLOW_QUANTITIES, type SlowQuantity, type TrackedPool, type TrackEvent } from './events.ts';
import type { Filter, Row } from './filter.ts';
import { explain, type Oddity } from './oddities.ts';
import { REACH } from './look.ts';
import { pass, runSlow, type Assumptions } from './slow-model.ts';
import { slowState, type SlowState } from './slow-state.ts';
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
  const state = slowState(pool, known);
  if (state.places.size === 0) return null;
  const last = known.at(-1)!.day;
  const plain = weightsOf(runsOf(state, last, NOTHING_ODD, SHARES));
  const likeliest = SHARES.reduce((sum, share, i) => sum + share * plain[i]!, 0);
  const { oddities, assumptions } = explain(state, likeliest);
  const runs = runsOf(state, last, assumptions, sharesAbout(likeliest));
  const weights = weightsOf(runs);
  const asked = SLOW_QUANTITIES.filter((quantity) => state.places.has(quantity));
  const mixed: Mixed = { state, runs, weights, asked };
  const ahead = daysAhead > 0 ? aheadOf({ ...mixed, runs: runs.map((run) => run.copy()) }, last, daysAhead) : [];
  if (at > last) for (const run of runs) pass(run, state, last, at);
  const quantities = estimatesOf(mixed);
  const course = withCourse ? courseOf(state, at, assumptions, quantities) : new Map<SlowQuantity, CoursePoint[]>();
  const litres = scaled(pool.litres, mixture(mixed, [state.volume, 1]), pool.doubt);
  return { quantities, litres, strengths: strengthsIn(mixed), oddities, course, ahead };
}

/** Runs that each assume another share, with how likely it is. */
interface Mixed {
  readonly state: SlowState;
  readonly runs: readonly Filter[];
  readonly weights: readonly number[];
  readonly asked: readonly SlowQuantity[];
}

function estimatesOf(mixed: Mixed): Map<SlowQuantity, Estimate> {
  return new Map(
    mixed.asked.map((quantity) => {
      const { rows, level } = mixed.state;
      const row = rows.get(quantity)!;
      const about = mixture(mixed, row).mean;
      const { mean, deviation } = mixture(mixed, [...row, level, about]);
      return [quantity, inBlocks(mean, deviation, shapeOf(mixed.state, quantity))];
    }),
  );
}

/** Of the errors of what mostly read a quantity. */
function shapeOf({ methods }: SlowState, quantity: SlowQuantity): Stretch {
  const own = methods.filter((method) => method.quantity === quantity);
  return own.reduce((most, one) => (one.count > most.count ? one : most)).stretch;
}

/** @param mixed up to the last event; its runs go on from there */
function aheadOf(mixed: Mixed, last: number, days: number): DayAhead[] {
  return Array.from({ length: days + 1 }, (_, i) => {
    if (i > 0) for (const run of mixed.runs) pass(run, mixed.state, last + i - 1, last + i);
    return { day: last + i, quantities: estimatesOf(mixed) };
  });
}

/** By the likeliest share alone: of the past it hardly matters. The last moment is the estimate itself. */
function courseOf(
  state: SlowState,
  at: number,
  assumptions: Assumptions,
  now: ReadonlyMap<SlowQuantity, Estimate>,
): Map<SlowQuantity, CoursePoint[]> {
  const run = runSlow(state, at, { ...assumptions, marksAll: true }, true);
  const { states } = smooth(
    run,
    [...now.keys()].map((quantity) => state.places.get(quantity)!),
  );
  return new Map(
    [...now].map(([quantity, last], i) => {
      const first = state.events.find((event) => event.kind === 'read' && event.quantity === quantity)?.day ?? at;
      const points = states
        .filter(({ id }) => id >= first && id < at)
        .map(({ id, sums }) => ({ day: id, ...bounded(sums[i]!.mean, Math.sqrt(sums[i]!.variance)) }));
      return [quantity, [...points, { day: at, ...last }]];
    }),
  );
}

const NOTHING_ODD = { jumps: [], doubted: new Map<number, number>() };

/** Nearer to one another than the first ones, as far on either side as those leave open. */
function sharesAbout(likeliest: number): readonly number[] {
  const middle = Math.min(1 - SPAN - EDGE, Math.max(SPAN + EDGE, likeliest));
  return [-1, -1 / 3, 1 / 3, 1].map((step) => middle + step * SPAN);
}
const SPAN = 0.3;
/** No photo errs only as its scale does, and no scale errs not at all. */
const EDGE = 0.03;

function runsOf(
  state: SlowState,
  until: number,
  assumptions: Omit<Assumptions, 'sharedVariance'>,
  shares: readonly number[],
): Filter[] {
  return shares.map((sharedVariance) => runSlow(state, until, { ...assumptions, sharedVariance }));
}

function weightsOf(runs: readonly Filter[]): number[] {
  const most = Math.max(...runs.map(({ logLikelihood }) => logLikelihood));
  const weights = runs.map(({ logLikelihood }) => Math.exp(logLikelihood - most));
  const sum = weights.reduce((total, weight) => total + weight, 0);
  return weights.map((weight) => weight / sum);
}

function mixture({ runs, weights }: Mixed, row: Row) {
  const means = runs.map((run) => run.meanOf(row));
  const mean = means.reduce((sum, value, i) => sum + weights[i]! * value, 0);
  const variance = runs.reduce((sum, run, i) => sum + weights[i]! * (run.varianceOf(row) + (means[i]! - mean) ** 2), 0);
  return { mean, deviation: Math.sqrt(variance) };
}

function bounded(mean: number, deviation: number): Estimate {
  const value = Math.max(0, mean);
  return { value, low: Math.max(0, value - Z90 * deviation), high: Math.max(0, mean + Z90 * deviation) };
}

/** What is left of the doubt is mostly a method's bias, and that is as large in blocks on either side, not in mg/L. */
function inBlocks(mean: number, deviation: number, { deviationAt, from }: Stretch): Estimate {
  const value = Math.max(0, mean);
  const blocks = (Z90 * deviation) / deviationAt(value, REACH * deviation);
  return { value, low: Math.max(0, from(value, -blocks)), high: from(value, blocks) };
}

function strengthsIn(mixed: Mixed): Map<string, Estimate> {
  const told = [...mixed.state.strengths].flatMap(([id, { place, doubt }]) => {
    const estimate = scaled(1, mixture(mixed, [place, 1]), doubt);
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
