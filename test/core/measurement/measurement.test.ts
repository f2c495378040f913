/** The one type of a measurement: what it holds, and the interval that each way of measuring deserves. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { measurementSchema, reachOf, completed, type Measurement } from '../../../src/core/measurement/measurement.ts';
import { intervalFor, TEST_ERRORS, TYPED_METHODS } from '../../../src/core/measurement/methods.ts';
import { PAD_QUANTITIES, QUANTITIES, QUANTITY_IDS } from '../../../src/core/measurement/quantities.ts';

const PH: Measurement = {
  quantity: 'ph',
  value: 7.4,
  low: 7.2,
  high: 7.6,
  alternative: null,
  offScale: null,
  openBelow: false,
  openAbove: false,
  method: 'photo',
  scale: { id: 'practice-four', name: 'Practice scale', origin: 'practice' },
  time: '2026-06-01T09:30:00.000Z',
};

describe('a measurement', () => {
  it('is taken as it is', () => {
    expect(measurementSchema.parse(PH)).toEqual(PH);
  });

  it.each([
    ['no quantity of ours', { quantity: 'orp' }],
    ['no way of measuring', { method: 'guess' }],
    ['an interval beside its value', { low: 7.5 }],
    ['text for a number', { value: '7.4' }],
    ['no number', { value: NaN }],
    ['no time', { time: 'yesterday' }],
    ['an alternative upside down', { alternative: { value: 8, low: 8.2, high: 8.4 } }],
  ])('is refused with %s', (_, change) => {
    expect(measurementSchema.safeParse({ ...PH, ...change }).success).toBe(false);
  });

  it('reaches over both stretches that fit, and past an end it is open at', () => {
    const two = reachOf({ ...PH, alternative: { value: 8.2, low: 8, high: 8.4 } });
    expect(two).toEqual({ value: 7.4, low: 7.2, high: 8.4, openBelow: false, openAbove: false });
    expect(reachOf({ ...PH, offScale: 'above' })).toMatchObject({ openBelow: false, openAbove: true });
    expect(reachOf({ ...PH, offScale: 'below' })).toMatchObject({ openBelow: true, openAbove: false });
    expect(reachOf({ ...PH, openAbove: true })).toMatchObject({ openBelow: false, openAbove: true });
  });
});

describe('the vocabulary', () => {
  it('has bounds the right way round, and every pad in it', () => {
    for (const { min, max, step } of Object.values(QUANTITIES)) {
      expect(min).toBeLessThan(max);
      expect(step).toBeGreaterThan(0);
    }
    for (const pad of PAD_QUANTITIES) expect(QUANTITY_IDS).toContain(pad);
  });
});

describe('how far a typed value may be off', () => {
  it('holds the value, and lies in what a pool can be', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...QUANTITY_IDS),
        fc.constantFrom(...TYPED_METHODS),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (quantity, method, share) => {
          const { min, max } = QUANTITIES[quantity];
          const value = min + share * (max - min);
          const { low, high } = intervalFor(quantity, value, method);
          expect(low).toBeLessThanOrEqual(value);
          expect(high).toBeGreaterThanOrEqual(value);
          expect(low).toBeGreaterThanOrEqual(min);
          expect(high).toBeLessThanOrEqual(max);
        },
      ),
      { seed: 18 },
    );
  });

  it('is no less by eye than unsaid, and no less unsaid than by drops', () => {
    for (const quantity of QUANTITY_IDS) {
      const [eye, unsaid, drops] = (['eye', 'unsaid', 'drops'] as const).map((method) => TEST_ERRORS[method][quantity]);
      for (const part of ['least', 'share'] as const) {
        expect(eye![part], `${quantity} by eye`).toBeGreaterThanOrEqual(unsaid![part]);
        expect(unsaid![part], `${quantity} unsaid`).toBeGreaterThanOrEqual(drops![part]);
      }
    }
  });

  it('names a source, or says that there is none', () => {
    for (const errors of Object.values(TEST_ERRORS)) {
      for (const { source, status } of Object.values(errors)) expect(source === '').toBe(status === 'common-practice');
    }
  });

  /*
   * Wells et al., PLOS ONE 11 (2016) e0152442, abstract: titrations up to 12.4 % off, strips 5.2 to 48 %.
   * Murray and Lantagne, J. Water and Health 13 (2015) 79, abstract: colorimeters from 5.1 %.
   * A normal error whose mean size is e has a standard deviation of e times the root of pi / 2.
   */
  it('is for chlorine what was measured of such tests', () => {
    const half = (meanError: number) => 1.645 * Math.sqrt(Math.PI / 2) * meanError;
    const share = (method: 'drops' | 'meter' | 'eye') => TEST_ERRORS[method]['free-chlorine'].share;
    expect(share('drops')).toBeCloseTo(half(0.124 / 2), 2);
    expect(share('meter')).toBeCloseTo(half(0.051), 2);
    expect(share('eye')).toBeCloseTo(half((0.052 + 0.48) / 2), 2);
  });

  /* AOAC 973.41, as quoted elsewhere: standard deviations of 0.20 at pH 7.1 and 0.13 at 8.0 among 20 laboratories. */
  it('is for pH meters between what was found among laboratories', () => {
    const { least } = TEST_ERRORS.meter.ph;
    expect(least).toBeGreaterThan(1.645 * 0.12);
    expect(least).toBeLessThan(1.645 * 0.2);
  });

  it('knows that no stabilizer is none', () => {
    expect(completed('cyanuric-acid', { value: 0 })).toMatchObject({ value: 0, low: 0, high: 0 });
  });
});
