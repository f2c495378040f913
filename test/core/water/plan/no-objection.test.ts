/**
 * 'Nothing speaks against swimming' is said only where no interval and no open end reaches a closing limit. The limits are
 * written out here on their own, from the CDC's pages that the verdict names: pH 7.0 to 7.8, free chlorine 1 mg/L at
 * least (2 with stabilizer) and below 10, water of 40 °C at most, combined chlorine below 1.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { planFrom } from '../../../../src/core/water/plan/make-plan.ts';
import { plain, reading } from './inputs.ts';

const GOOD = {
  ph: { value: 7.4, low: 7.3, high: 7.5 },
  'free-chlorine': { value: 3, low: 2.8, high: 3.2 },
  'total-chlorine': { value: 3, low: 2.8, high: 3.2 },
  'total-alkalinity': reading(90),
  'calcium-hardness': reading(250),
  'cyanuric-acid': { value: 30, low: 25, high: 35 },
  temperature: { value: 26, low: 26, high: 26 },
};

function swimWith(readings: object): string {
  const made = planFrom(plain({ readings: { ...GOOD, ...readings }, look: { water: 'clear', bottomVisible: true } }));
  if (!made.ok) throw new Error(JSON.stringify(made.issues));
  return made.plan.verdict.swim;
}

describe('no objection to swimming', () => {
  it('is said of good water, measured well', () => {
    expect(swimWith({})).toBe('no-objection');
  });

  it.each([
    ['41 °C', { temperature: { value: 41, low: 41, high: 41 } }],
    ['pH 7.85', { ph: { value: 7.85, low: 7.85, high: 7.85 } }],
    ['a pH whose interval passes 7.8', { ph: { value: 7.6, low: 7.3, high: 7.95 } }],
    ['a pH whose interval passes 7.0', { ph: { value: 7.2, low: 6.9, high: 7.5 } }],
    ['chlorine exactly 10', { 'free-chlorine': { value: 10, low: 10, high: 10 }, 'total-chlorine': reading(10) }],
    [
      'chlorine 4.2 or more',
      { 'free-chlorine': { value: 4.2, low: 4.2, high: 4.2, openAbove: true }, 'total-chlorine': reading(5) },
    ],
    [
      'chlorine off the scale',
      { 'free-chlorine': { value: 5, low: 5, high: 5, offScale: 'above' }, 'total-chlorine': reading(6) },
    ],
    ['total 9 beside free 5', { 'free-chlorine': reading(5), 'total-chlorine': reading(9) }],
    [
      'stabilizer 30 to 100, chlorine 2 to 4',
      { 'free-chlorine': { value: 3, low: 2, high: 4 }, 'cyanuric-acid': { value: 60, low: 30, high: 100 } },
    ],
    ['a pH open upwards', { ph: { value: 7.6, low: 7.4, high: 7.7, openAbove: true } }],
    [
      'a second stretch of the scale',
      { ph: { value: 7.4, low: 7.3, high: 7.5, alternative: { value: 8.2, low: 8.1, high: 8.3 } } },
    ],
  ])('is not said with %s', (_, readings) => {
    expect(swimWith(readings)).not.toBe('no-objection');
  });

  it('is said of no interval that reaches a limit', () => {
    const span = (min: number, max: number, widest: number) =>
      fc
        .tuple(
          fc.double({ min, max, noNaN: true }),
          fc.double({ min: 0, max: widest, noNaN: true }),
          fc.boolean(),
          fc.boolean(),
        )
        .map(([value, half, openBelow, openAbove]) => ({
          value,
          low: Math.max(min, value - half),
          high: Math.min(max, value + half),
          openBelow: openBelow && half > widest / 2,
          openAbove: openAbove && half > widest / 2,
        }));
    let free = 0;
    fc.assert(
      fc.property(span(6.8, 8, 0.2), span(0.5, 12, 0.8), span(16, 42, 1), (ph, chlorine, temperature) => {
        const swim = swimWith({
          ph,
          'free-chlorine': chlorine,
          'total-chlorine': chlorine,
          temperature: { ...temperature, openAbove: false, openBelow: false },
        });
        // 'With care' closes no pool either.
        if (swim !== 'no-objection' && swim !== 'with-care') return;
        free += 1;
        expect(ph.low).toBeGreaterThanOrEqual(7 - 1e-9);
        expect(ph.high).toBeLessThanOrEqual(7.8 + 1e-9);
        expect(ph.openAbove || ph.openBelow).toBe(false);
        expect(chlorine.low).toBeGreaterThanOrEqual(1);
        expect(chlorine.high).toBeLessThan(10);
        expect(chlorine.openAbove || chlorine.openBelow).toBe(false);
        expect(temperature.high).toBeLessThanOrEqual(40);
      }),
      { seed: 17, numRuns: 400 },
    );
    expect(free).toBeGreaterThan(5);
  });
});
