/** What the climate of the place adds to the estimate, by hand. */
import { describe, expect, it } from 'vitest';
import type { Entry, Pool } from '../../../src/core/log/schema.ts';
import { climateRainOf, waterByMonth } from '../../../src/core/track/climate-rain.ts';
import { waterNow } from '../../../src/core/track/estimate.ts';
import { trackedPool } from '../../../src/core/track/from-log.ts';
import { loggedValue, POOL, reading } from '../log/samples.ts';

/** In air of 25 °C 5 mm a day evaporate: of these 212.2 mm in 30.44 days 152.2 mm do, and 60 mm run over. */
const WET = 5 * 30.4375 + 60;
/** A pool of 1.2 m. */
const pool: Pool = { ...POOL, volumeLitres: 24_000, details: { 'pool.surfaceM2': 20 } };
const june = (details: Pool['details']): Pool => ({ ...pool, details: { ...pool.details, ...details } });
const wet = june({ 'pool.climate.jun.airC': 25, 'pool.climate.jun.rainMm': WET });

const salt = (day: string): Entry => ({
  ...reading(1, [{ ...loggedValue('salt', 3000), low: 2950, high: 3050, method: 'meter' }]),
  id: `salt-${day}`,
  poolId: POOL.id,
  time: `2026-${day}T00:00:00.000Z`,
});
const rainOn = (time: string, rainMm: number): Entry => ({
  id: 'rain',
  poolId: POOL.id,
  revision: 1,
  edited: time,
  time,
  zoneMinutes: 0,
  note: '',
  kind: 'weather',
  airTemperatureC: null,
  sky: null,
  rainMm,
  bathers: null,
});
const START = [salt('05-30'), salt('05-31')];
/** 30.4375 days into June and July. */
const END = '2026-07-01T10:30:00.000Z';
const saltOf = (of: Pool, entries: readonly Entry[] = START) =>
  waterNow(entries, of, END)!.quantities.find(({ quantity }) => quantity === 'salt')!;

describe('rain of the climate', () => {
  it('takes along what runs over: 60 mm of 1.2 m, all of it, leave exp(-0.06 / 1.2)', () => {
    const both = { ...wet, details: { ...wet.details, 'pool.climate.jul.airC': 25, 'pool.climate.jul.rainMm': WET } };
    const [with_, without] = [saltOf(both), saltOf(pool)];
    // From 31 May on, a day of which is dry.
    expect(with_.value / without.value).toBeCloseTo(Math.exp(-0.06 / 1.2), 3);
    expect(with_.high - with_.low).toBeGreaterThan(without.high - without.low);
  });

  it('changes nothing where as much evaporates, where a cover lies, or where nothing is told', () => {
    const { value, low, high } = saltOf(pool);
    for (const details of [
      { 'pool.climate.jun.airC': 25, 'pool.climate.jun.rainMm': 150 },
      { ...wet.details, 'pool.cover': 'mostly' },
      { ...wet.details, 'pool.exposure': 'covered' },
      { 'pool.climate.jun.rainMm': -5, 'pool.climate.jul.rainMm': 1e9 },
    ]) {
      expect(saltOf(june(details))).toMatchObject({ value, low, high });
    }
  });

  it('gives way, month by month, to rain that the log tells', () => {
    const dry = rainOn('2026-06-10T08:00:00.000Z', 0);
    expect(saltOf(wet, [...START, dry]).value).toBeCloseTo(saltOf(pool, [...START, dry]).value, 9);
    const day = (iso: string) => Date.parse(iso) / 86_400_000;
    const rain = climateRainOf(wet, [rainOn('2025-06-10T08:00:00.000Z', 4)], 1200)!;
    const { runsOver, falls } = rain(day('2026-05-20'), day('2026-06-11'));
    expect(runsOver).toBeCloseTo(((10 / 30.4375) * 60) / 1200, 9);
    expect(falls).toBeCloseTo(((10 / 30.4375) * WET) / 1200, 9);
    expect(rain(day('2025-05-20'), day('2025-07-11'))).toEqual({ runsOver: 0, falls: 0 });
  });
});

describe('the depth of the water', () => {
  it('is the volume over the surface, where both are known and fit each other', () => {
    expect(trackedPool(pool, []).depthMm).toBe(1200);
    for (const surface of [1, 2000]) {
      expect(trackedPool(june({ 'pool.surfaceM2': surface }), []).depthMm).toBeUndefined();
    }
    expect(trackedPool({ ...pool, volumeLitres: null }, []).depthMm).toBeUndefined();
  });

  it('says how much a logged rain thins the water: 24 mm of 1.2 m are 2 %', () => {
    const rain = rainOn(END, 24);
    expect(saltOf(pool, [...START, rain]).value / saltOf(pool).value).toBeCloseTo(0.98, 3);
  });
});

it('takes the month’s air for water that nobody measured, but for a heated pool or one under a roof', () => {
  expect(waterByMonth(wet, '2026-06-20T08:00:00.000Z')).toBe(25);
  expect(waterByMonth(wet, '2026-07-20T08:00:00.000Z')).toBeNull();
  expect(waterByMonth(june({ ...wet.details, 'pool.heater': 'copper' }), '2026-06-20T08:00:00.000Z')).toBeNull();
  expect(waterByMonth(june({ ...wet.details, 'pool.exposure': 'covered' }), '2026-06-20T08:00:00.000Z')).toBeNull();
});
