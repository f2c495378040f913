import { describe, expect, it } from 'vitest';
import { monthsBack } from '../../../src/components/log/entry-list.ts';

describe('monthsBack', () => {
  it('covers the time from the first entry to the last without a gap', () => {
    const months = monthsBack('2026-03-15T12:00:00.000Z', '2025-11-02T12:00:00.000Z');
    expect(months.map(({ title }) => title)).toEqual([
      'March 2026',
      'February 2026',
      'January 2026',
      'December 2025',
      'November 2025',
    ]);
    months.slice(1).forEach(({ to }, i) => {
      expect(Date.parse(months[i]!.from) - Date.parse(to)).toBe(1);
    });
  });

  it('is one month for one entry', () => {
    expect(monthsBack('2026-03-15T12:00:00.000Z', '2026-03-15T12:00:00.000Z')).toHaveLength(1);
  });
});
