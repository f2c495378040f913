/** Where a span lies against a target, at its very ends. */
import { describe, expect, it } from 'vitest';
import { isInside, judge, knownAs, spanOf } from '../../../../src/core/water/plan/span.ts';
import type { Known } from '../../../../src/core/water/plan/spanned.ts';
import { durationText, readingSpan } from '../../../../src/words/plan/numbers.ts';

const target = { low: 2, high: 6 };

describe('judge', () => {
  it.each([
    [0, 1.99, 'low'],
    [0, 2, 'maybe-low'],
    [1.99, 6, 'maybe-low'],
    [2, 6, 'in-range'],
    [2, 6.01, 'maybe-high'],
    [1.99, 6.01, 'maybe-either'],
    [6, 9, 'maybe-high'],
    [6.01, 9, 'high'],
  ])('calls %d to %d %s of 2 to 6', (low, high, expected) => {
    expect(judge({ low, high }, target)).toBe(expected);
  });

  it('takes an end that rounding has moved for the end', () => {
    // A millionth is allowed.
    expect(judge({ low: 2 - 5e-7, high: 6 + 5e-7 }, target)).toBe('in-range');
    expect(judge({ low: 0, high: 2 - 5e-7 }, target)).toBe('maybe-low');
    expect(judge({ low: 6 + 5e-7, high: 9 }, target)).toBe('maybe-high');
  });
});

describe('isInside', () => {
  it.each([
    [2, true],
    [6, true],
    [2 - 5e-7, true],
    [6 + 5e-7, true],
    [1.99, false],
    [6.01, false],
  ])('%d: %s', (value, expected) => {
    expect(isInside(value, target)).toBe(expected);
  });
});

describe('spans', () => {
  it('hold the value and all others', () => {
    expect(spanOf(3, [4, 1])).toEqual({ value: 3, low: 1, high: 4 });
    expect(spanOf(3, [])).toEqual({ value: 3, low: 3, high: 3 });
  });

  it('that a step left alone stay measured, with what lies beyond their scale', () => {
    const known: Known = { value: 3, low: 2, high: 10, from: 'measured', open: 'above' };
    expect(knownAs(known, { value: 3, low: 2, high: 10 })).toEqual(known);
    expect(knownAs(known, { value: 3, low: 2.1, high: 10 })).toMatchObject({ from: 'derived', open: null, low: 2.1 });
    expect(knownAs(known, { value: 3, low: 2, high: 10.1 })).toMatchObject({ from: 'derived', open: null });
    // What was never measured stays so, whatever was done to it.
    const assumed: Known = { ...known, from: 'assumed', open: null };
    expect(knownAs(assumed, { value: 5, low: 4, high: 12 })).toEqual({ ...assumed, value: 5, low: 4, high: 12 });
  });
});

describe('in words', () => {
  it.each([
    [0.5, 'half an hour'],
    [0.75, 'an hour'],
    [1.2, 'an hour'],
    [1.25, '1.5 hours'],
    [2.2, '2 hours'],
    [9.8, '10 hours'],
    [10.4, '10 hours'],
    [35, '35 hours'],
    [36, '2 days'],
    [7 * 24, 'a week'],
    [8 * 24, '8 days'],
    [14 * 24, 'two weeks'],
  ])('%d h are %s', (hours, text) => {
    expect(durationText(hours)).toBe(text);
  });

  it('has the unit of the reading and of the reader', () => {
    const span = { value: 25, low: 20, high: 30 };
    expect(readingSpan('temperature', span, 'metric')).toBe('25 (20 to 30) °C');
    // 25 °C = 25 * 9 / 5 + 32 = 77 °F; 20 and 30 are 68 and 86.
    expect(readingSpan('temperature', span, 'us')).toBe('77 (68 to 86) °F');
    expect(readingSpan('ph', { value: 7.5, low: 7.5, high: 7.5 }, 'us')).toBe('7.5');
    expect(readingSpan('combined-chlorine', { value: 1, low: 1, high: 1 }, 'us')).toBe('1.0 mg/L');
  });
});
