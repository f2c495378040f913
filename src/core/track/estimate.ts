/** What the water is at a moment, from all that the logbook holds of it. */
import type { Estimate, Measurement } from '../measurement/measurement.ts';
import { QUANTITIES, QUANTITY_IDS, type QuantityId, type Unit } from '../measurement/quantities.ts';
import type { AdditionEntry, Entry, Pool, ReadingEntry } from '../log/schema.ts';
import { DAY_MILLIS, daysBefore } from '../log/time.ts';
import { waterOf, type Water } from '../water/water.ts';
import { estimateSlow, type SlowEstimate } from './estimate-slow.ts';
import type { SlowQuantity } from './events.ts';
import { followChlorine } from './fast-chlorine.ts';
import { followPh } from './fast-ph.ts';
import type { Misfit, OnState } from './follow.ts';
import {
  chlorineHabits,
  dayOfTime,
  eventsFrom,
  measurementsOf,
  trackedPool,
  type LoggedMeasurement,
} from './from-log.ts';
import { dayOf, type Oddity as SlowOddity } from './oddities.ts';

export interface QuantityNow extends Estimate {
  readonly quantity: QuantityId;
  readonly unit: Unit;
  readonly lastReading: { readonly value: number; readonly low: number; readonly high: number; readonly time: string };
  /** How many readings it rests on, and how many additions moved it since the first of them. */
  readonly readings: number;
  readonly additions: number;
}

export interface OddityTold {
  readonly kind: SlowOddity['kind'];
  readonly quantity: QuantityId;
  /** ISO 8601: of the reading, or of the readings between which it changed. */
  readonly from: string;
  readonly to: string;
  /** By how much it changed, or the reading and what was expected. */
  readonly change: number | null;
  readonly value: number | null;
  readonly expected: number | null;
}

export interface WaterNow {
  readonly at: string;
  readonly quantities: readonly QuantityNow[];
  readonly learnt: { readonly volumeLitres: Estimate | null; readonly chlorineUsePerDay: Estimate | null };
  readonly oddities: readonly OddityTold[];
}

const Z90 = 1.644853627;
/** Alkalinity, stabilizer and salt of older readings tell of another water; fast quantities forget within weeks. */
const SLOW_DAYS = 400;
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
  return estimated(entries, pool, at, false)?.now ?? null;
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
  /** Slow quantities by all readings, before and after; pH and chlorine by those before. */
  readonly course: ReadonlyMap<QuantityId, readonly CourseAt[]>;
}

/** The water now, and what it was taken for since the first reading. */
export function waterCourse(entries: readonly Entry[], pool: Pool, at: string): WaterCourse | null {
  return estimated(entries, pool, at, true);
}

function estimated(entries: readonly Entry[], pool: Pool, at: string, withCourse: boolean): WaterCourse | null {
  const since = daysBefore(at, SLOW_DAYS);
  const known = entries
    .filter((entry) => entry.poolId === pool.id && entry.time <= at && entry.time > since)
    .sort((a, b) => (a.time < b.time ? -1 : a.time > b.time ? 1 : 0));
  const measurements = known.flatMap(measurementsOf);
  if (measurements.length === 0) return null;
  const tracked = trackedPool(pool);
  const day = dayOfTime(at);
  const slow = estimateSlow(tracked, eventsFrom(known, measurements, tracked, tracked.litres).slow, day, withCourse);
  const litres = slow?.litres?.value ?? tracked.litres;
  const recently = daysBefore(at, FAST_DAYS);
  const recent = eventsFrom(
    known.filter(({ time }) => time > recently),
    measurements.filter(({ measurement }) => measurement.time > recently),
    tracked,
    litres,
  );
  const rest = restOf(slow, measurements);
  const course = new Map<QuantityId, CourseAt[]>(
    [...(slow?.course ?? [])].map(([quantity, points]) => [
      quantity,
      points.map(({ day: when, ...estimate }) => ({ time: isoOf(when), ...estimate })),
    ]),
  );
  const onState = (quantity: QuantityId): OnState | null => {
    if (!withCourse) return null;
    const points: CourseAt[] = [];
    course.set(quantity, points);
    return (when, mean, variance) => points.push({ time: isoOf(when), ...spread({ mean, variance }, 0) });
  };
  const habits = chlorineHabits(pool, litres);
  const chlorine = followChlorine(recent.chlorine, day, habits, SHARED_VARIANCE, onState('free-chlorine'));
  const ph = followPh(recent.ph, day, () => rest, SHARED_VARIANCE, onState('ph'));
  const estimates = new Map<QuantityId, Estimate>(slow?.quantities);
  if (chlorine) estimates.set('free-chlorine', spread(chlorine, 0));
  if (ph) estimates.set('ph', spread(ph, 0));
  const now = {
    at,
    quantities: QUANTITY_IDS.flatMap((quantity) => quantityNow(quantity, estimates, measurements, known)),
    learnt: { volumeLitres: slow?.litres ?? null, chlorineUsePerDay: chlorine ? useOf(chlorine.use) : null },
    oddities: [
      ...(slow?.oddities ?? []).map(told),
      ...(chlorine?.misfits ?? []).map((misfit) => toldMisfit('free-chlorine', misfit)),
      ...(ph?.misfits ?? []).map((misfit) => toldMisfit('ph', misfit)),
    ].sort((a, b) => (a.to < b.to ? -1 : 1)),
  };
  return { now, course };
}

function spread({ mean, variance }: { mean: number; variance: number }, least: number): Estimate {
  const half = Z90 * Math.sqrt(variance);
  return { value: Math.max(least, mean), low: Math.max(least, mean - half), high: Math.max(least, mean + half) };
}

function useOf(use: { mean: number; variance: number }): Estimate | null {
  return Math.sqrt(use.variance) > MAX_DOUBT_OF_USE * use.mean ? null : spread(use, 0);
}

/** The other readings of the water, for what doses and air do to its pH. */
function restOf(slow: SlowEstimate | null, measurements: readonly LoggedMeasurement[]): Omit<Water, 'ph'> {
  const of = (quantity: SlowQuantity, otherwise: number) => slow?.quantities.get(quantity)?.value ?? otherwise;
  const temperature = lastOf(measurements, 'temperature')?.value ?? 25;
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

const isoOf = (day: number) => new Date(day * DAY_MILLIS).toISOString();

function told(oddity: SlowOddity): OddityTold {
  const to = isoOf(dayOf(oddity));
  if (oddity.kind === 'jump') {
    const { kind, quantity, after, change } = oddity;
    return { kind, quantity, from: isoOf(after), to, change, value: null, expected: null };
  }
  const { kind, quantity, value, expected } = oddity;
  return { kind, quantity, from: to, to, change: null, value, expected };
}

function toldMisfit(quantity: QuantityId, { kind, day, value, expected }: Misfit): OddityTold {
  return { kind, quantity, from: isoOf(day), to: isoOf(day), change: null, value, expected };
}
