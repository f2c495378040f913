/** The log as series: what a quantity did over time, and what changed since last time. */
import { type OffScale, reachOf } from '../measurement/measurement.ts';
import { QUANTITY_IDS, type QuantityId } from '../measurement/quantities.ts';
import { type AdditionEntry, countingValues, type Entry, type LoggedValue, type ReadingEntry } from './schema.ts';

export interface TrendPoint {
  readonly entryId: string;
  /** ISO 8601, UTC. */
  readonly time: string;
  readonly value: number;
  /** 90 % interval: where two stretches of the scale fit, from the lower to the upper. */
  readonly low: number;
  readonly high: number;
  /** The truth may lie beyond that end. */
  readonly openBelow: boolean;
  readonly openAbove: boolean;
  readonly offScale: OffScale;
  readonly byHand: boolean;
  /** As it was worded on the day. */
  readonly said: Pick<LoggedValue, 'word' | 'otherWord' | 'isSure'>;
}

/** Points in the order of time. */
export function seriesOf(entries: readonly Entry[], quantity: QuantityId): TrendPoint[] {
  return entries
    .filter((entry) => entry.kind === 'reading')
    .flatMap((entry) =>
      countingValues(entry)
        .filter((value) => value.quantity === quantity)
        .map((value) => pointOf(entry, value)),
    )
    .sort((a, b) => (a.time < b.time ? -1 : a.time > b.time ? 1 : 0));
}

/** What was ever measured, in the fixed order. */
export function quantitiesIn(entries: readonly Entry[]): QuantityId[] {
  const seen = new Set(
    entries.flatMap((entry) => (entry.kind === 'reading' ? entry.values.map(({ quantity }) => quantity) : [])),
  );
  return QUANTITY_IDS.filter((quantity) => seen.has(quantity));
}

export interface Series {
  readonly quantity: QuantityId;
  /** In the order of time; of very many as many as a drawing can show, spread evenly. */
  readonly points: readonly TrendPoint[];
  /** How many there are. */
  readonly count: number;
}

/** All that a trend shows of a time. */
export interface Trend {
  readonly series: readonly Series[];
  readonly additions: readonly AdditionEntry[];
  /** The newest readings and additions, newest first, as many as a table can show. */
  readonly newest: readonly Entry[];
  /** How many readings and additions there are. */
  readonly count: number;
  /** When the first entry was, of whatever kind; null without one. */
  readonly first: string | null;
}

const MAX_DRAWN = 600;
export const MAX_TREND_ROWS = 120;

/** @param entries in the order of time */
export function trendOf(entries: readonly Entry[]): Trend {
  const all = new Map<QuantityId, TrendPoint[]>();
  for (const entry of entries) {
    if (entry.kind !== 'reading') continue;
    for (const value of countingValues(entry)) {
      const own = all.get(value.quantity) ?? [];
      if (own.length === 0) all.set(value.quantity, own);
      own.push(pointOf(entry, value));
    }
  }
  const quantities = QUANTITY_IDS.filter((quantity) => all.has(quantity));
  const shown = entries.filter(({ kind }) => kind === 'reading' || kind === 'addition');
  return {
    series: quantities.map((quantity) => {
      const points = all.get(quantity)!;
      return { quantity, points: thinned(points), count: points.length };
    }),
    additions: thinned(entries.filter((entry) => entry.kind === 'addition')),
    newest: shown.slice(-MAX_TREND_ROWS).reverse(),
    count: shown.length,
    first: entries[0]?.time ?? null,
  };
}

/** The same, or so many of them that a drawing can show, spread evenly; the last is always there. */
export function thinned<T>(all: readonly T[]): readonly T[] {
  if (all.length <= MAX_DRAWN) return all;
  return Array.from({ length: MAX_DRAWN }, (_, i) => all[Math.round(((i + 1) * all.length) / MAX_DRAWN) - 1]!);
}

function pointOf({ id, time }: ReadingEntry, logged: LoggedValue): TrendPoint {
  const { word, otherWord, isSure, offScale, method } = logged;
  const byHand = method !== 'photo';
  return { entryId: id, time, ...reachOf(logged), offScale, byHand, said: { word, otherWord, isSure } };
}

export interface QuantityChange {
  readonly quantity: QuantityId;
  readonly before: TrendPoint;
  readonly after: TrendPoint;
  /** 'unclear': the change is no larger than the two readings' uncertainty together. */
  readonly direction: 'up' | 'down' | 'unclear';
}

/** Each quantity of the newest reading against the last reading before it that had the same quantity. */
export function changesSinceLast(entries: readonly Entry[]): QuantityChange[] {
  const readings = entries.filter((entry) => entry.kind === 'reading').sort((a, b) => (a.time < b.time ? 1 : -1));
  const newest = readings[0];
  if (!newest) return [];
  return countingValues(newest).flatMap((value): QuantityChange[] => {
    const { quantity } = value;
    const after = pointOf(newest, value);
    const before = seriesOf(readings.slice(1), quantity).at(-1);
    if (!before) return [];
    const direction = directionOf(before, after);
    return [{ quantity, before, after, direction }];
  });
}

function directionOf(before: TrendPoint, after: TrendPoint): QuantityChange['direction'] {
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
      points.filter(
        ({ low, high, openBelow, openAbove }) => !openBelow && !openAbove && low >= target.low && high <= target.high,
      ).length,
  };
}
