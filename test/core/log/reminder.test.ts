import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { reminderTime } from '../../../src/core/log/reminder.ts';

const NOW = '2026-07-14T10:00:00.000Z';

describe('reminderTime', () => {
  it.each([
    ['by day, as it is due', '2026-07-17T09:30:00.000Z', 120, '2026-07-17T09:30:00.000Z'],
    ['at night, the evening before', '2026-07-17T01:00:00.000Z', 120, '2026-07-16T18:00:00.000Z'],
    ['late in the evening, earlier that evening', '2026-07-17T21:00:00.000Z', 120, '2026-07-17T18:00:00.000Z'],
    ['overdue, in an hour', '2026-07-01T09:30:00.000Z', 120, '2026-07-14T11:00:00.000Z'],
    ['overdue at night, in the morning', '2026-07-01T09:30:00.000Z', -720, '2026-07-14T20:00:00.000Z'],
  ])('%s', (_name, due, zone, expected) => expect(reminderTime(due, NOW, zone)).toBe(expected));

  it('is always in the future, always by day, and never later than the morning after', () => {
    const minutes = fc.integer({ min: -60 * 24 * 60, max: 60 * 24 * 60 });
    fc.assert(
      fc.property(minutes, fc.integer({ min: -56, max: 56 }), (offset, quarters) => {
        const zone = quarters * 15;
        const due = new Date(Date.parse(NOW) + offset * 60_000).toISOString();
        const at = Date.parse(reminderTime(due, NOW, zone));
        const wall = new Date(at + zone * 60_000);
        const hour = wall.getUTCHours() + wall.getUTCMinutes() / 60;
        expect(at).toBeGreaterThan(Date.parse(NOW));
        expect(hour).toBeGreaterThanOrEqual(8);
        expect(hour).toBeLessThanOrEqual(20);
        expect(at - Math.max(Date.parse(due), Date.parse(NOW))).toBeLessThan(13 * 3_600_000);
      }),
      { seed: 14, numRuns: 1000 },
    );
  });
});
