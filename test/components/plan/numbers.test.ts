import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatConverted, parseNumber } from '../../../src/components/plan/numbers.ts';

describe('a typed number', () => {
  it.each([
    ['7.4', 7.4],
    ['7,4', 7.4],
    [' 15 000 ', 15000],
    ['15,000', 15000],
    ['1,234,567.5', 1234567.5],
    ['.5', 0.5],
    ['5.', 5],
    ['-3', -3],
    ['−3', -3],
  ])('%s is %d', (text, value) => expect(parseNumber(text)).toBe(value));

  it.each(['', '   '])('a blank is not known', (text) => expect(parseNumber(text)).toBeUndefined());

  it.each(['seven', '7.4.1', '1e5', '0x10', 'Infinity', '7-8', '--2', '.'])('%s is none', (text) =>
    expect(parseNumber(text)).toBeNaN(),
  );

  it('reads back what is shown, to four figures', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 1e6, noNaN: true }), (value) => {
        expect(Math.abs(parseNumber(formatConverted(value))! - value)).toBeLessThanOrEqual(value * 0.0006);
      }),
      { seed: 3, numRuns: 200 },
    );
  });
});
