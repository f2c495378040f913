/** Checks the doses of a plan: the change that each was to bring, against the change that the next reading shows. */
import type { Entry, PlanEntry } from '../log/schema.ts';
import { seriesOf, type TrendPoint } from '../log/trends.ts';
import { daysBefore } from '../log/time.ts';
import type { Estimate } from '../measurement/measurement.ts';
import type { QuantityId } from '../measurement/quantities.ts';
import { SHOWS_AFTER_HOURS } from '../pool/test-times.ts';
import { planFrom } from '../water/plan/make-plan.ts';
import type { SpannedReading } from '../water/plan/spanned.ts';
import type { StepKind } from '../water/plan/step.ts';
import { timesOf } from './progress.ts';

export type Outcome = 'landed' | 'short' | 'beyond';

export interface DoseResult {
  readonly quantity: QuantityId;
  readonly kind: StepKind;
  /** When the dose was done, ISO 8601, and from when on a test shows it. */
  readonly done: string;
  readonly from: string;
  readonly before: Estimate;
  readonly predicted: Estimate;
  /** The next reading after it, where there is one, and nothing else moved the quantity in between. */
  readonly reading: TrendPoint | null;
  readonly outcome: Outcome | null;
  /** Why nothing is told, where nothing is: no test in time, something else that moved it, or only a bound was read. */
  readonly untold: 'untested' | 'disturbed' | 'bound' | null;
  /** Until when a test tells of it, ISO 8601. */
  readonly until: string;
  /**
   * The change that was read over the change that was due, with its 90 % interval; null where that says nothing, being
   * known no better than to half of itself.
   */
  readonly ratio: Estimate | null;
}

const MOVED: Partial<Record<StepKind, readonly [SpannedReading, QuantityId]>> = {
  'raise-alkalinity': ['totalAlkalinity', 'total-alkalinity'],
  'lower-ph': ['ph', 'ph'],
  'raise-ph': ['ph', 'ph'],
  'raise-chlorine': ['freeChlorine', 'free-chlorine'],
  'lower-chlorine': ['freeChlorine', 'free-chlorine'],
  'raise-salt': ['salt', 'salt'],
  'raise-stabilizer': ['cyanuricAcid', 'cyanuric-acid'],
  'raise-hardness': ['calciumHardness', 'calcium-hardness'],
};

/** Chlorine is used up within days, and pH drifts: a later reading says nothing of the dose. */
const STANDS_DAYS: Partial<Record<QuantityId, number>> = { 'free-chlorine': 1, ph: 3 };
const STANDS_FOR_DAYS = 21;
/** A ratio known no better than this share of itself is noise. */
const MAX_DOUBT = 0.5;

/** @param entries of the pool, in the order of time */
export function doseResultsOf(entries: readonly Entry[]): DoseResult[] {
  return entries.flatMap((entry) => (entry.kind === 'plan' ? ofPlan(entry, entries) : []));
}

function ofPlan({ rounds }: PlanEntry, entries: readonly Entry[]): DoseResult[] {
  return rounds.flatMap((round) => {
    if (round.done.length === 0) return [];
    const outcome = planFrom(round.input);
    if (!outcome.ok) return [];
    const { steps, now } = outcome.plan;
    return steps.flatMap((step, i): DoseResult[] => {
      const done = round.done.filter((one) => one.step === step.id);
      const moved = MOVED[step.kind];
      const last = done.at(-1);
      // Only what was done as it was planned was to land where the plan says.
      const isAsPlanned = done.length === timesOf(step) && done.every(({ planned, amount }) => planned === amount);
      if (!last || !moved || !isAsPlanned) return [];
      const [spanned, quantity] = moved;
      const before = (steps[i - 1]?.after ?? now).spans[spanned];
      const predicted = step.after.spans[spanned];
      return [marked({ quantity, kind: step.kind, done: last.time, before, predicted }, entries, last.entryId)];
    });
  });
}

type Due = Pick<DoseResult, 'quantity' | 'kind' | 'done' | 'before' | 'predicted'>;

function marked(due: Due, entries: readonly Entry[], entryId: string): DoseResult {
  const { quantity, done, before, predicted } = due;
  const from = daysBefore(done, -SHOWS_AFTER_HOURS[quantity] / 24);
  const until = daysBefore(done, -(STANDS_DAYS[quantity] ?? STANDS_FOR_DAYS));
  const reading = seriesOf(entries, quantity).find(({ time }) => time >= from && time <= until) ?? null;
  const untold = whyUntold(reading, (time) => entries.some((entry) => disturbs(entry, due, entryId, time)));
  if (!reading || untold) return { ...due, from, until, reading: null, outcome: null, untold, ratio: null };
  const rises = predicted.value >= before.value;
  const isOver = reading.low > predicted.high;
  const isUnder = reading.high < predicted.low;
  const outcome = isOver ? (rises ? 'beyond' : 'short') : isUnder ? (rises ? 'short' : 'beyond') : 'landed';
  return {
    ...due,
    from,
    until,
    reading,
    outcome,
    untold,
    ratio: quantity === 'ph' ? null : ratioOf(before, predicted, reading),
  };
}

function whyUntold(reading: TrendPoint | null, isDisturbed: (until: string) => boolean): DoseResult['untold'] {
  if (!reading) return 'untested';
  if (isDisturbed(reading.time)) return 'disturbed';
  return reading.openAbove || reading.openBelow ? 'bound' : null;
}

/** Something else that moves it went in between. */
function disturbs(entry: Entry, { quantity, done, kind }: Due, entryId: string, until: string): boolean {
  if (entry.kind !== 'addition' || entry.id === entryId || entry.time <= done || entry.time >= until) return false;
  const { agent } = entry;
  if (agent === 'water' || agent === 'other') return true;
  if (kind === 'raise-salt' || kind === 'raise-stabilizer') return agent === 'salt' || agent === 'stabilizer';
  if (quantity === 'calcium-hardness') return agent === 'calcium';
  return agent !== 'salt' && agent !== 'calcium';
}

/** Of linear quantities: pH answers to a dose in its own way. */
function ratioOf(before: Estimate, predicted: Estimate, reading: TrendPoint): Estimate | null {
  const due = predicted.value - before.value;
  if (Math.abs(due) < 1e-9) return null;
  const value = (reading.value - before.value) / due;
  const doubt = Math.hypot(reading.high - reading.low, before.high - before.low) / 2 / Math.abs(due);
  if (!(value > 0) || doubt > MAX_DOUBT * value) return null;
  return { value, low: value - doubt, high: value + doubt };
}
