import { describe, expect, it } from 'vitest';
import type { ReadOutcome } from '../../../src/core/reading/reading.ts';
import { judgeTiming, withTiming } from '../../../src/core/reading/timing.ts';

const TIMES = { dipSeconds: 2, readAfterSeconds: 30, readBeforeSeconds: 75 };
const OUTCOME: ReadOutcome = {
  outcome: 'read',
  correction: 'neutrals',
  pads: [],
  warnings: ['uneven-light'],
  places: [],
  quality: { neutralResidual: 1, shadingPercent: 50, marksResidualMm: 0.1 },
};

describe('the time from dip to photo', () => {
  it.each([
    [null, null],
    [0, 'read-early'],
    [29.4, 'read-early'],
    [29.6, null],
    [30, null],
    [75, null],
    [75.4, null],
    [75.6, 'read-late'],
    [86_400, 'read-late'],
  ])('%j s: %j', (seconds, code) => {
    expect(judgeTiming(TIMES, seconds)).toBe(code);
  });

  it('goes before the other warnings, and is taken back when the time is corrected', () => {
    const late = withTiming(OUTCOME, TIMES, 90);
    expect(late.warnings).toEqual(['read-late', 'uneven-light']);
    expect(withTiming(late, TIMES, 10).warnings).toEqual(['read-early', 'uneven-light']);
    expect(withTiming(late, TIMES, 50)).toEqual(OUTCOME);
    expect(withTiming(withTiming(OUTCOME, TIMES, 10), TIMES, 50)).toEqual(OUTCOME);
    expect(withTiming(late, TIMES, null)).toEqual(OUTCOME);
  });
});
