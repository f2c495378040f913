/** What the cases say about the water: every reading with its span. */
import { activeChlorine } from '../chlorine.ts';
import { WaterError } from '../errors.ts';
import { saturationIndex } from '../saturation.ts';
import type { Water } from '../water.ts';
import { CASE_NAMES, type Cases } from './cases.ts';
import { spanOf } from './span.ts';
import type { PredictedWater, Span, SpannedReading } from './spanned.ts';

const READINGS: readonly SpannedReading[] = [
  'ph',
  'totalAlkalinity',
  'calciumHardness',
  'salt',
  'cyanuricAcid',
  'boron',
  'freeChlorine',
  'combinedChlorine',
  'temperatureC',
];

export function spanIn(cases: Cases, reading: SpannedReading): Span {
  // An acid water has less than no alkalinity by the book; a test shows none.
  const shown = (value: number) => (reading === 'temperatureC' ? value : Math.max(0, value));
  return spanOf(
    shown(cases.likely.water[reading]),
    CASE_NAMES.map((name) => shown(cases[name].water[reading])),
  );
}

export function predicted(cases: Cases): PredictedWater {
  const { water } = cases.likely;
  const spans = Object.fromEntries(READINGS.map((reading) => [reading, spanIn(cases, reading)])) as Record<
    SpannedReading,
    Span
  >;
  const active = activeChlorine(water);
  return { water, spans, saturationIndex: indexSpan(water, spans), activeChlorine: activeSpan(water, spans), active };
}

/** All that lowers the index together, and all that raises it. */
function indexSpan(water: Water, spans: Record<SpannedReading, Span>): Span {
  const { ph, totalAlkalinity, calciumHardness, temperatureC, cyanuricAcid, boron, salt } = spans;
  const value = indexOf(water);
  const least: Water = {
    ...water,
    ph: ph.low,
    totalAlkalinity: totalAlkalinity.low,
    calciumHardness: calciumHardness.low,
    temperatureC: temperatureC.low,
    cyanuricAcid: cyanuricAcid.high,
    boron: boron.high,
    salt: salt.high,
  };
  const most: Water = {
    ...water,
    ph: ph.high,
    totalAlkalinity: totalAlkalinity.high,
    calciumHardness: calciumHardness.high,
    temperatureC: temperatureC.high,
    cyanuricAcid: cyanuricAcid.low,
    boron: boron.low,
    salt: salt.low,
  };
  return spanOf(value, [indexOf(least), indexOf(most)]);
}

/** As far down as an index is told: a water without calcium or carbonate has none. */
export const INDEX_FLOOR = -9;

/** The floor where the corner of the spans holds no calcium or carbonate. */
export function indexOf(water: Water): number {
  try {
    return Math.max(INDEX_FLOOR, saturationIndex(water));
  } catch (error) {
    if (error instanceof WaterError) return INDEX_FLOOR;
    throw error;
  }
}

/** Between the two sets of constants, at the readings' worst and best. */
function activeSpan(water: Water, { freeChlorine, cyanuricAcid, ph }: Record<SpannedReading, Span>): Span {
  const worst = { ...water, freeChlorine: freeChlorine.low, cyanuricAcid: cyanuricAcid.high, ph: ph.high };
  const best = { ...water, freeChlorine: freeChlorine.high, cyanuricAcid: cyanuricAcid.low, ph: ph.low };
  return {
    value: activeChlorine(water).by1974,
    low: activeChlorine(worst).low,
    high: activeChlorine(best).high,
  };
}

/**
 * The most of a dose that leaves the likeliest water's index no higher than it should be, or than it was.
 * @param dose as wanted, any unit
 * @param apply the water after so much of it
 */
export function withinIndex(cases: Cases, dose: number, most: number, apply: (dose: number) => Cases): number {
  const top = Math.max(most, indexOf(cases.likely.water));
  const fits = (part: number) => indexOf(apply(part).likely.water) <= top + 1e-9;
  if (dose <= 0 || fits(dose)) return dose;
  let [low, high] = [0, dose];
  for (let i = 0; i < 20; i++) {
    const middle = (low + high) / 2;
    if (fits(middle)) low = middle;
    else high = middle;
  }
  return low;
}
