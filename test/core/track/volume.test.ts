/**
 * The volume from what an addition did, worked by hand: mass over rise. 20 kg of salt that lift the salt by 800 mg/L went
 * into 20,000 g / 0.8 g/L = 25,000 L. And by dilution: water let out and filled with fresh takes salt along in proportion.
 */
import { describe, expect, it } from 'vitest';
import { estimateSlow } from '../../../src/core/track/estimate-slow.ts';
import { waterNow } from '../../../src/core/track/estimate.ts';
import type { TrackedPool, TrackEvent } from '../../../src/core/track/events.ts';
import { addition, dayTime, loggedValue, POOL as LOG_POOL, reading as logEntry } from '../log/samples.ts';

/** By its shape 28,500 L, one in ten off. */
const POOL: TrackedPool = { litres: 28_500, doubt: 0.1, fill: { salt: 0 } };
const SALT_GRAMS_PER_MOLE = 58.44;

const meter = (day: number, value: number, deviation = 20): TrackEvent => ({
  kind: 'read',
  day,
  quantity: 'salt',
  value,
  deviation,
  bound: null,
  method: 'meter',
  // A meter that reads high does so before and after: the rise doesn't mind.
  sharedVariance: 0.9,
  entry: `${day}`,
});
const salt = (day: number, grams: number, doubt = 0.01): TrackEvent => ({
  kind: 'added',
  day,
  moles: { salt: grams / SALT_GRAMS_PER_MOLE },
  doubt,
});

describe('the volume by a rise of salt', () => {
  it('is mass over rise, within the doubt that is left', () => {
    const { litres } = estimateSlow(POOL, [meter(0, 2200), salt(0.1, 20_000), meter(1.1, 3000)], 2)!;
    expect(Math.abs(litres!.value / 25_000 - 1)).toBeLessThan(0.02);
    expect(litres!.low).toBeLessThan(25_000);
    expect(litres!.high).toBeGreaterThan(25_000);
    // Most of it what evaporation and topping up may do to 2,600 mg/L within 1.1 days: 1.2 % either time, of which the
    // first says e^-0.55 of the second, so 29 mg/L or 3.6 % of the rise; with meter and dose 3.9 %, times 1.645.
    expect((litres!.high - litres!.low) / (2 * litres!.value)).toBeLessThan(0.075);
  });

  it('doesn’t mind a meter that always reads high', () => {
    const high = [meter(0, 2420), salt(0.1, 20_000), meter(1.1, 3220)];
    const { litres } = estimateSlow(POOL, high, 2)!;
    expect(Math.abs(litres!.value / 25_000 - 1)).toBeLessThan(0.03);
  });

  it('is not told by a pinch of salt, nor without a test on both sides', () => {
    expect(estimateSlow(POOL, [meter(0, 2200), salt(0.1, 500), meter(1.1, 2220)], 2)!.litres).toBeNull();
    expect(estimateSlow(POOL, [salt(0.1, 20_000), meter(1.1, 3000)], 2)!.litres).toBeNull();
  });

  it('is told less surely by a product whose strength is in doubt', () => {
    const width = (doubt: number) => {
      const { litres } = estimateSlow(POOL, [meter(0, 2200), salt(0.1, 20_000, doubt), meter(1.1, 3000)], 2)!;
      return litres!.high - litres!.low;
    };
    expect(width(0.05)).toBeGreaterThan(1.3 * width(0.01));
  });
});

/**
 * By hand: acid that by its label takes 40 mg/L of alkalinity (as CaCO3, 50.04 g to the equivalent) out of 28,500 L holds
 * 40 x 28,500 / 50,040 = 22.8 equivalents. Where it takes 32, it is 0.8 as strong.
 */
describe('the strength of a product by what it did', () => {
  const drops = (day: number, value: number): TrackEvent => ({
    kind: 'read',
    day,
    quantity: 'total-alkalinity',
    value,
    deviation: 3,
    bound: null,
    method: 'drops',
    sharedVariance: 0.6,
    entry: `${day}`,
  });
  const acid = (day: number): TrackEvent => ({
    kind: 'added',
    day,
    moles: { alkalinity: (-40 * 28_500) / 50_040 },
    doubt: 0.03,
    product: { id: 'hydrochloric-acid', doubt: 0.25 },
  });
  const twice = [drops(0, 150), acid(0.1), drops(0.6, 118), acid(0.7), drops(1.2, 86)];

  it('is what was read over what was due, where the volume is known', () => {
    const { strengths, litres } = estimateSlow({ ...POOL, doubt: 0.01 }, twice, 2)!;
    const share = strengths.get('hydrochloric-acid')!;
    expect(share.value).toBeCloseTo(0.8, 1);
    expect(share.low).toBeLessThan(0.8);
    expect(share.high).toBeGreaterThan(0.8);
    expect(share.high - share.low).toBeLessThan(0.3);
    expect(litres).toBeNull();
  });

  it('is less sure where it may as well be the volume, and untold without a dose that shows', () => {
    const width = (doubt: number) => {
      const share = estimateSlow({ ...POOL, doubt }, twice, 2)!.strengths.get('hydrochloric-acid')!;
      return share.high / share.low;
    };
    expect(width(0.1)).toBeGreaterThan(1.1 * width(0.01));
    expect(estimateSlow(POOL, [drops(0, 150), acid(0.1)], 2)!.strengths.size).toBe(0);
  });
});

describe('the volume by the logbook’s own entries', () => {
  it('is told by the experiment that the logbook offers: 20 kg of salt between two readings by a meter', () => {
    const meterAt = (day: number, value: number) =>
      logEntry(day, [{ ...loggedValue('salt', value, 0.05 * value), method: 'meter' as const }]);
    const dose = addition(0.2, 'salt', { amount: 20, unit: 'kg', productId: 'salt' });
    // 20 kg over 800 mg/L: 25,000 L.
    const now = waterNow(
      [meterAt(0, 2200), dose, meterAt(1.2, 3000)],
      { ...LOG_POOL, volumeLitres: 28_500 },
      dayTime(2),
    );
    const { value, low, high } = now!.learnt.volumeLitres!;
    expect(Math.abs(value / 25_000 - 1)).toBeLessThan(0.05);
    expect(low).toBeLessThan(25_000);
    expect(high).toBeGreaterThan(25_000);
  });
});
