/** Dates far away: a slip in a file, or in what was typed. */
import { describe, expect, it } from 'vitest';
import { withinDates } from '../../../src/core/log/incoming.ts';
import { isPlausibleTime } from '../../../src/core/log/time.ts';
import { reading } from './samples.ts';

const NOW = '2026-06-15T12:00:00.000Z';

describe('dates that an entry can have', () => {
  it.each([
    ['0026-06-15T12:00:00.000Z', false],
    ['1989-12-31T23:59:59.999Z', false],
    ['1990-01-01T00:00:00.000Z', true],
    ['2026-06-16T12:00:00.000Z', true],
    ['2026-06-16T12:00:00.001Z', false],
    ['9999-12-31T23:59:59.999Z', false],
  ])('%s: %s', (time, isPlausible) => {
    expect(isPlausibleTime(time, NOW)).toBe(isPlausible);
  });

  it('leaves others out of a file, and says which and why', () => {
    const near = reading(1, []);
    const far = { ...near, id: 'far-away', time: '9999-01-01T00:00:00.000Z' };
    const incoming = { pools: [], entries: [near, far], scales: [], pictures: [], choices: [] };
    const read = withinDates({ ok: true, incoming, problems: [] }, NOW);
    expect(read).toMatchObject({
      incoming: { entries: [near] },
      problems: [
        { where: { what: 'entry', at: 'far-away' }, fault: { code: 'far-date', facts: { date: '9999-01-01' } } },
      ],
    });
  });
});
