/** What the water is at a moment, from all that the logbook holds of it. */
import type { Estimate, Measurement } from '../measurement/measurement.ts';
import { QUANTITIES, QUANTITY_IDS, type QuantityId, type Unit } from '../measurement/quantities.ts';
import type { AdditionEntry, Entry, Pool, ReadingEntry } from '../log/schema.ts';
import { daysBefore, ESTIMATE_DAYS } from '../log/time.ts';
import { PRODUCT_IDS, type ProductId } from '../water/products.ts';
import { waterOf, type Water } from '../water/water.ts';
import { estimateSlow, type SlowEstimate } from './estimate-slow.ts';
import { waterByMonth } from './climate-rain.ts';
import type { SlowQuantity } from './events.ts';
import { followChlorine, type ChlorineHabits, type ChlorineState } from './fast-chlorine.ts';
import { followPh } from './fast-ph.ts';
import type { OnState } from './follow.ts';
import {
  chlorineHabits,
  dayOfTime,
  eventsFrom,
  isoOf,
  measurementsOf,
  trackedPool,
  type LogEvents,
  type LoggedMeasurement,
} from './from-log.ts';
import { odditiesOf, type OddityTold } from './told-oddities.ts';

export interface QuantityNow extends Estimate {
  readonly quantity: QuantityId;
  readonly unit: Unit;
  readonly lastReading: { readonly value: number; readonly low: number; readonly high: number; readonly time: string };
  /** How many readings it rests on, and how many additions moved it since the first of them. */
  readonly readings: number;
  readonly additions: number;
}

export interface WaterNow {
  readonly at: string;
  readonly quantities: readonly QuantityNow[];
  readonly learnt: {
    readonly volumeLitres: Estimate | null;
    readonly chlorineUsePerDay: Estimate | null;
    /** Shares of what the labels say. */
    readonly strengths: readonly ({ readonly product: ProductId } & Estimate)[];
  };
  readonly oddities: readonly OddityTold[];
}

const Z90 = 1.644853627;
/** pH and chlorine forget within weeks. */
const FAST_DAYS = 75;
/** As photos of one scale share of their errors in simulation: 0.1 of 0.27 block steps, and up to 0.3 of 0.39. */
const SHARED_VARIANCE = 0.3;
/** A use of chlorine known no better than to half of it isn't told. */
const MAX_DOUBT_OF_USE = 0.5;

/**
 * @param at ISO 8601, UTC; entries after it don't count
 * @returns null where nothing was read before it
 */
export function waterNow(entries: readonly Entry[], pool: Pool, at: string): WaterNow | null {
  return estimated(entries, pool, at)?.now ?? null;
}

/** Of a reading that isn't in the log yet: what doesn't fit all that is. */
export function misfitsOf(entries: readonly Entry[], pool: Pool, reading: ReadingEntry): OddityTold[] {
  const before = entries.filter(({ time }) => time < reading.time);
  const now = waterNow([...before, { ...reading, poolId: pool.id }], pool, reading.time);
  return (now?.oddities ?? []).filter(({ kind, to }) => kind === 'unconfirmed' && to === reading.time);
}

export interface CourseAt extends Estimate {
  /** ISO 8601. Twice where something changed at once. */
  readonly time: string;
}

export interface WaterCourse {
  readonly now: WaterNow;
  /** Day by day from the last entry on, if nothing is done: slow quantities for a month, pH and chlorine for some days. */
  readonly ahead: Course;
  /** Slow quantities by all readings, before and after; pH and chlorine by those before. */
  readonly course: Course;
}
export type Course = ReadonlyMap<QuantityId, readonly CourseAt[]>;

/** Beyond that a test is due by rule. */
const AHEAD_DAYS = { slow: 30, fast: 3 } as const;

/** What the water is likely to be from the last entry on: for when to test again. */
export function waterAhead(entries: readonly Entry[], pool: Pool, at: string): Course {
  return waterToday(entries, pool, at)?.ahead ?? new Map();
}

export function waterToday(
  entries: readonly Entry[],
  pool: Pool,
  at: string,
): Pick<WaterCourse, 'now' | 'ahead'> | null {
  return estimated(entries, pool, at, { withAhead: true });
}

/** The water now, and what it was taken for since the first reading. */
export function waterCourse(entries: readonly Entry[], pool: Pool, at: string): WaterCourse | null {
  return estimated(entries, pool, at, { withCourse: true, withAhead: true });
}

/** A practice photo says nothing of water that a scale of one's own has read. */
function ofThisWater(entries: readonly Entry[]): readonly Entry[] {
  const originOf = (entry: Entry) => (entry.kind === 'reading' ? entry.scale?.origin : null);
  const hasOwn = entries.some((entry) => originOf(entry) === 'taught');
  return hasOwn ? entries.filter((entry) => originOf(entry) !== 'practice') : entries;
}

function estimated(
  entries: readonly Entry[],
  pool: Pool,
  at: string,
  { withCourse = false, withAhead = false }: { withCourse?: boolean; withAhead?: boolean } = {},
): WaterCourse | null {
  const since = daysBefore(at, ESTIMATE_DAYS);
  const known = ofThisWater(entries)
    .filter((entry) => entry.poolId === pool.id && entry.time <= at && entry.time > since)
    .sort((a, b) => (a.time < b.time ? -1 : a.time > b.time ? 1 : 0));
  const measurements = known.flatMap(measurementsOf);
  if (measurements.length === 0) return null;
  const tracked = trackedPool(pool, known);
  const day = dayOfTime(at);
  const slow = estimateSlow(tracked, eventsFrom(known, measurements, tracked, tracked.litres).slow, day, {
    withCourse,
    daysAhead: withAhead ? AHEAD_DAYS.slow : 0,
  });
  const litres = slow?.litres?.value ?? tracked.litres;
  const recently = daysBefore(at, FAST_DAYS);
  const recent = eventsFrom(
    known.filter(({ time }) => time > recently),
    measurements.filter(({ measurement }) => measurement.time > recently),
    tracked,
    litres,
  );
  const fast: Fast = {
    recent,
    habits: chlorineHabits(pool, litres),
    rest: restOf(slow, measurements, waterByMonth(pool, at)),
  };
  const course: Points = new Map(
    [...(slow?.course ?? [])].map(([quantity, points]) => [
      quantity,
      points.map(({ day: when, ...estimate }) => ({ time: isoOf(when), ...estimate })),
    ]),
  );
  const { chlorine, ph } = followFast(fast, day, withCourse ? course : null);
  const ahead: Points = withAhead ? aheadOf(slow, fast, known.at(-1)!.time) : new Map();
  const estimates = new Map<QuantityId, Estimate>(slow?.quantities);
  if (chlorine) estimates.set('free-chlorine', spread(chlorine, 0));
  if (ph) estimates.set('ph', spread(ph, 0));
  const now = {
    at,
    quantities: QUANTITY_IDS.flatMap((quantity) => quantityNow(quantity, estimates, measurements, known)),
    learnt: learntOf(slow, chlorine),
    oddities: odditiesOf(slow, chlorine, ph),
  };
  return { now, course, ahead };
}

type Points = Map<QuantityId, CourseAt[]>;

interface Fast {
  readonly recent: Pick<LogEvents, 'chlorine' | 'ph'>;
  readonly habits: ChlorineHabits;
  readonly rest: Omit<Water, 'ph'>;
}

/** @param into gets the way there */
function followFast({ recent, habits, rest }: Fast, until: number, into: Points | null) {
  const onState = (quantity: QuantityId): OnState | null => {
    const points: CourseAt[] = [];
    into?.set(quantity, points);
    return into && ((when, mean, variance) => points.push({ time: isoOf(when), ...spread({ mean, variance }, 0) }));
  };
  return {
    chlorine: followChlorine(recent.chlorine, until, habits, SHARED_VARIANCE, onState('free-chlorine')),
    ph: followPh(recent.ph, until, rest, SHARED_VARIANCE, onState('ph')),
  };
}

/** @param last of the entries, ISO 8601 */
function aheadOf(slow: SlowEstimate | null, fast: Fast, last: string): Points {
  const ahead: Points = new Map();
  followFast(fast, dayOfTime(last) + AHEAD_DAYS.fast, ahead);
  // A day as a number may be off by a millisecond.
  const soon = new Date(Date.parse(last) + 1000).toISOString();
  for (const [quantity, points] of ahead) {
    ahead.set(
      quantity,
      points.slice(
        Math.max(
          0,
          points.findLastIndex(({ time }) => time < soon),
        ),
      ),
    );
  }
  for (const { day, quantities } of slow?.ahead ?? []) {
    for (const [quantity, estimate] of quantities) {
      ahead.set(quantity, [...(ahead.get(quantity) ?? []), { time: isoOf(day), ...estimate }]);
    }
  }
  return ahead;
}

function learntOf(slow: SlowEstimate | null, chlorine: ChlorineState | null): WaterNow['learnt'] {
  return {
    volumeLitres: slow?.litres ?? null,
    chlorineUsePerDay: chlorine ? useOf(chlorine.use) : null,
    strengths: PRODUCT_IDS.flatMap((id) => {
      const share = slow?.strengths.get(id);
      return share ? [{ product: id, ...share }] : [];
    }),
  };
}

function spread({ mean, variance }: { mean: number; variance: number }, least: number): Estimate {
  const half = Z90 * Math.sqrt(variance);
  return { value: Math.max(least, mean), low: Math.max(least, mean - half), high: Math.max(least, mean + half) };
}

function useOf(use: { mean: number; variance: number }): Estimate | null {
  return Math.sqrt(use.variance) > MAX_DOUBT_OF_USE * use.mean ? null : spread(use, 0);
}

/**
 * The other readings of the water, for what doses and air do to its pH.
 * @param byMonth °C by the place's climate, where nobody measured
 */
function restOf(
  slow: SlowEstimate | null,
  measurements: readonly LoggedMeasurement[],
  byMonth: number | null,
): Omit<Water, 'ph'> {
  const of = (quantity: SlowQuantity, otherwise: number) => slow?.quantities.get(quantity)?.value ?? otherwise;
  const temperature = lastOf(measurements, 'temperature')?.value ?? byMonth ?? 25;
  return waterOf({
    ph: 7.5,
    temperatureC: temperature,
    totalAlkalinity: Math.max(20, of('total-alkalinity', 100)),
    calciumHardness: of('calcium-hardness', 0.8 * of('total-hardness', 250)),
    cyanuricAcid: of('cyanuric-acid', 30),
    salt: of('salt', 1000),
    boron: of('boron', 0),
  });
}

function lastOf(measurements: readonly LoggedMeasurement[], quantity: QuantityId): Measurement | undefined {
  return measurements.findLast(({ measurement }) => measurement.quantity === quantity)?.measurement;
}

function quantityNow(
  quantity: QuantityId,
  estimates: ReadonlyMap<QuantityId, Estimate>,
  measurements: readonly LoggedMeasurement[],
  entries: readonly Entry[],
): QuantityNow[] {
  const estimate = estimates.get(quantity);
  const own = measurements.filter(({ measurement }) => measurement.quantity === quantity);
  const last = own.at(-1)?.measurement;
  if (!estimate || !last) return [];
  const since = own[0]!.measurement.time;
  const { value, low, high, time } = last;
  return [
    {
      quantity,
      unit: QUANTITIES[quantity].unit,
      ...estimate,
      lastReading: { value, low, high, time },
      readings: own.length,
      additions: entries.filter((entry) => entry.kind === 'addition' && entry.time >= since && moves(entry, quantity))
        .length,
    },
  ];
}

const MOVED_BY: Partial<Record<QuantityId, readonly AdditionEntry['agent'][]>> = {
  'free-chlorine': ['chlorine', 'chlorine-remover'],
  ph: ['acid', 'base', 'bicarbonate'],
  'total-alkalinity': ['acid', 'base', 'bicarbonate'],
  'calcium-hardness': ['calcium'],
  'total-hardness': ['calcium'],
  'cyanuric-acid': ['stabilizer'],
  salt: ['salt'],
};

function moves({ agent }: AdditionEntry, quantity: QuantityId): boolean {
  return agent === 'water' || (MOVED_BY[quantity]?.includes(agent) ?? false);
}
