import { describe, expect, it } from 'vitest';
import { pastText, underWayText, whenText } from '../../src/words/kept-plan.ts';

describe('when something was, by the clock on the wall there', () => {
  // Midnight in a zone two hours ahead is 22:00 UTC.
  const now = new Date('2026-07-14T22:30:00.000Z');
  it('tells day and time in the entry’s own zone', () => {
    expect(pastText('2026-07-14T21:50:00.000Z', now, 120)).toBe('yesterday at 23:50');
    expect(pastText('2026-07-14T21:50:00.000Z', now, 0)).toBe('today at 21:50');
    expect(pastText('2026-07-14T22:10:00.000Z', now, 120)).toBe('today at 00:10');
    expect(pastText('2026-07-10T05:00:00.000Z', now, -420)).toBe('on 9 July at 22:00');
  });

  it('tells what is still to come', () => {
    expect(whenText('2026-07-15T22:10:00.000Z', now, 120)).toBe('tomorrow at 00:10');
  });
});

describe('the plan under way', () => {
  const now = new Date('2026-07-14T10:00:00.000Z');
  it('says what is done and what comes next', () => {
    expect(underWayText(1, 'lower-ph', null, now)).toBe(
      'You have a plan under way, one step of it done. Next: lower the pH.',
    );
    expect(underWayText(3, 'test', '2026-07-14T09:00:00.000Z', now)).toBe(
      'All steps of your plan are done. Test the water again now.',
    );
  });
});
