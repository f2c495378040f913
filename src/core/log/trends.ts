/** The log as series: what a parameter did over time, and what changed since last time. */
import { PAD_QUANTITIES, type PadQuantity } from '../measurement/quantities.ts';
import type { OffScale } from '../reading/reading.ts';
import { countingEstimate, type Entry, type LoggedValue, type ReadingEntry } from './schema.ts';

export interface TrendPoint {
  readonly entryId: string;
  /** ISO 8601, UTC. */
  readonly time: string;
  readonly value: number;
  /** 90 % interval; equal to the value where none is known. */
  readonly low: number;
  readonly high: number;
  readonly offScale: OffScale;
  readonly byHand: boolean;
  /** As it was worded on the day. */
  readonly said: Pick<LoggedValue, 'word' | 'otherWord' | 'isSure'>;
}

/** Points in the order of time. Pads that matched nothing are left out. */
export function seriesOf(entries: readonly Entry[], parameter: PadQuantity): TrendPoint[] {
  return entries
    .filter((entry) => entry.kind === 'reading')
    .flatMap((entry) =>
      entry.values.filter((value) => value.parameter === parameter).flatMap((value) => pointOf(entry, value)),
    )
    .sort((a, b) => (a.time < b.time ? -1 : a.time > b.time ? 1 : 0));
}

/** The parameters that were ever read, in the fixed order. */
export function parametersOf(entries: readonly Entry[]): PadQuantity[] {
  const seen = new Set(
    entries.flatMap((entry) =>
      entry.kind === 'reading' ? entry.values.filter(countingEstimate).map(({ parameter }) => parameter) : [],
    ),
  );
  return PAD_QUANTITIES.filter((parameter) => seen.has(parameter));
}

function pointOf({ id, time }: ReadingEntry, logged: LoggedValue): TrendPoint[] {
  const estimate = countingEstimate(logged);
  if (!estimate) return [];
  const byHand = logged.byHand !== null;
  const { word, otherWord, isSure } = logged;
  const offScale = byHand ? null : logged.offScale;
  return [{ entryId: id, time, ...estimate, offScale, byHand, said: { word, otherWord, isSure } }];
}

export interface ParameterChange {
  readonly parameter: PadQuantity;
  readonly unit: 'mg/L' | 'pH';
  readonly before: number;
  readonly after: number;
  readonly timeBefore: string;
  /** 'unclear': the change is no larger than the two readings' uncertainty together. */
  readonly direction: 'up' | 'down' | 'unclear';
}

/** Each parameter of the newest reading against the last reading before it that had the same parameter. */
export function changesSinceLast(entries: readonly Entry[]): ParameterChange[] {
  const readings = entries.filter((entry) => entry.kind === 'reading').sort((a, b) => (a.time < b.time ? 1 : -1));
  const newest = readings[0];
  if (!newest) return [];
  return newest.values.flatMap((value): ParameterChange[] => {
    const after = pointOf(newest, value)[0];
    const before = after && seriesOf(readings.slice(1), value.parameter).at(-1);
    if (!after || !before) return [];
    const { parameter, unit } = value;
    const direction = directionOf(before, after);
    return [{ parameter, unit, before: before.value, after: after.value, timeBefore: before.time, direction }];
  });
}

function directionOf(before: TrendPoint, after: TrendPoint): ParameterChange['direction'] {
  const change = after.value - before.value;
  // Independent errors add up as squares; towards each other the inner halves of the intervals count.
  const [upper, lower] = change > 0 ? [before, after] : [after, before];
  const doubt = Math.hypot(upper.high - upper.value, lower.value - lower.low);
  if (change === 0 || Math.abs(change) <= doubt) return 'unclear';
  return change > 0 ? 'up' : 'down';
}

export interface Summary {
  readonly count: number;
  readonly lowest: number;
  readonly median: number;
  readonly highest: number;
  /** How many lay in the target span; null without one. */
  readonly inTarget: number | null;
  /** How many of these lay there with their whole interval. */
  readonly surelyInTarget: number | null;
}

/** @returns null for an empty series */
export function summarise(
  points: readonly TrendPoint[],
  target: { readonly low: number; readonly high: number } | null,
): Summary | null {
  if (points.length === 0) return null;
  const values = points.map(({ value }) => value).sort((a, b) => a - b);
  const middle = (values.length - 1) / 2;
  return {
    count: values.length,
    lowest: values[0]!,
    median: (values[Math.floor(middle)]! + values[Math.ceil(middle)]!) / 2,
    highest: values.at(-1)!,
    inTarget: target && values.filter((value) => value >= target.low && value <= target.high).length,
    surelyInTarget:
      target &&
      points.filter(({ low, high, offScale }) => offScale === null && low >= target.low && high <= target.high).length,
  };
}
