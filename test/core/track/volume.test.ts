/**
 * The volume from what an addition did, worked by hand: mass over rise. 20 kg of salt that lift the salt by 800 mg/L went
 * into 20,000 g / 0.8 g/L = 25,000 L. And by dilution: water let out and filled with fresh takes salt along in proportion.
 */
import { describe, expect, it } from 'vitest';
import { estimateSlow } from '../../../src/core/track/estimate-slow.ts';
import type { TrackedPool, TrackEvent } from '../../../src/core/track/events.ts';

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
    expect((litres!.high - litres!.low) / (2 * litres!.value)).toBeLessThan(0.05);
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
