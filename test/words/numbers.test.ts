import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatInterval, formatMeasured, formatValue, numberText } from '../../src/words/numbers.ts';

describe('numbers as they are shown', () => {
  it('keeps a typed or printed value as it stands', () => {
    expect([0, 0.5, 7.2, 120, 1000].map(formatValue)).toEqual(['0', '0.5', '7.2', '120', '1,000']);
  });

  it('gives a measured value no more digits than a strip supports', () => {
    expect(formatMeasured(7.4321, 'pH')).toBe('7.4');
    expect(formatMeasured(2.345, 'mg/L')).toBe('2.3');
    expect(formatMeasured(73.2, 'mg/L')).toBe('73');
    expect(formatMeasured(243.1, 'mg/L')).toBe('245');
    expect(formatMeasured(3120, 'mg/L')).toBe('3,100');
  });

  it('writes a minus as one, none before a nought, and decimals as asked', () => {
    expect(numberText(-0.34, { decimals: 1 })).toBe('−0.3');
    expect(numberText(-0.04, { decimals: 1 })).toBe('0.0');
    expect(numberText(-0)).toBe('0');
    expect(numberText(28_512.4, { figures: 3 })).toBe('28,500');
    // What only a slip or a hostile file says.
    expect(numberText(1e308)).toBe('1 × 10^308');
    expect(numberText(-2.5e-300)).toBe('−2.5 × 10^−300');
  });

  it('leaves values that are already round alone, binary dust or not', () => {
    expect(formatInterval(0.1 + 0.2, 7.2, 'pH')).toBe('0.3 to 7.2');
  });

  it('never shows an interval narrower than it is', () => {
    const value = fc.double({ min: 0, max: 5000, noNaN: true });
    fc.assert(
      fc.property(value, value, (one, two) => {
        const [low, high] = one < two ? [one, two] : [two, one];
        const [shownLow, shownHigh] = formatInterval(low, high, 'mg/L')
          .split(' to ')
          .map((text) => Number(text.replaceAll(',', '')));
        expect(shownLow!).toBeLessThanOrEqual(low * (1 + 1e-4) + 1e-6);
        expect(shownHigh!).toBeGreaterThanOrEqual(high * (1 - 1e-4) - 1e-6);
      }),
      { seed: 5, numRuns: 300 },
    );
  });
});
