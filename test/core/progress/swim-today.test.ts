/** What is said about swimming today from the logbook: no more than its readings of today can carry. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Entry, ReadingEntry } from '../../../src/core/log/schema.ts';
import { swimToday } from '../../../src/core/progress/swim-today.ts';
import { makePlan } from '../../../src/core/water/plan/make-plan.ts';
import { swimVerdict } from '../../../src/core/water/plan/verdict.ts';
import { addition, loggedValue, reading } from '../log/samples.ts';
import { anyInput } from '../water/plan/inputs.ts';

const NOW = '2026-07-14T12:00:00.000Z';
const hoursAgo = (hours: number) => new Date(Date.parse(NOW) - hours * 3_600_000).toISOString();
const chlorine = (value: number, half = 0.3) => loggedValue('free-chlorine', value, half);
const ph = (value: number, half = 0.1) => loggedValue('ph', value, half);
const stabilizer = loggedValue('cyanuric-acid', 40, 5);
const read = (hours: number, ...values: ReadingEntry['values']): ReadingEntry => ({
  ...reading(0, values),
  scale: null,
  time: hoursAgo(hours),
});

describe('swimming today', () => {
  it('is judged by what a day hasn’t changed: chlorine and pH of today, stabilizer of this month', () => {
    const judged = swimToday([read(20 * 24, stabilizer), read(2, chlorine(3.5), ph(7.4))], NOW);
    expect(judged).toMatchObject({
      state: 'judged',
      at: { time: hoursAgo(2) },
      since: [],
      verdict: { swim: 'no-objection' },
    });
    const longAgo = swimToday([read(40 * 24, stabilizer), read(2, chlorine(3.5), ph(7.4))], NOW);
    expect(longAgo).toMatchObject({ verdict: { swim: 'cannot-say', reasons: ['stabilizer-not-measured'] } });
  });

  it('isn’t judged by yesterday’s chlorine, nor without pH', () => {
    expect(swimToday([read(26, chlorine(3), ph(7.4), stabilizer)], NOW)).toEqual({
      state: 'old',
      quantity: 'free-chlorine',
      last: { time: hoursAgo(26), zoneMinutes: 120 },
    });
    expect(swimToday([read(2, chlorine(3))], NOW)).toEqual({ state: 'old', quantity: 'ph', last: null });
  });

  it('takes the newest of each, and the older one’s time', () => {
    const entries = [read(5, chlorine(3.5), ph(8.6), stabilizer), read(1, ph(7.4))];
    expect(swimToday(entries, NOW)).toMatchObject({ at: { time: hoursAgo(5) }, verdict: { swim: 'no-objection' } });
    expect(swimToday(entries.slice(0, 1), NOW)).toMatchObject({ verdict: { swim: 'stay-out' } });
  });

  it('tells what went in since', () => {
    const acid: Entry = { ...addition(0, 'acid'), time: hoursAgo(1) };
    const entries = [read(2, chlorine(3.5), ph(7.4), stabilizer), acid];
    expect(swimToday(entries, NOW)).toMatchObject({ state: 'judged', since: [acid] });
    expect(swimToday([acid, read(0.5, chlorine(3.5), ph(7.4))], NOW)).toMatchObject({ since: [] });
  });

  it('passes over what was read with an invented scale', () => {
    const practice = {
      ...read(1, chlorine(3), ph(7.4)),
      scale: { id: 'practice-five', name: 'Practice', origin: 'practice' as const },
    };
    expect(swimToday([practice], NOW)).toEqual({ state: 'none' });
    expect(swimToday([], NOW)).toEqual({ state: 'none' });
  });
});

it('says of swimming what the whole plan says', () => {
  fc.assert(
    fc.property(anyInput, (input) => {
      const outcome = makePlan(input);
      if (outcome.ok) expect(swimVerdict(input)).toEqual(outcome.plan.verdict);
    }),
    { numRuns: 60 },
  );
});
