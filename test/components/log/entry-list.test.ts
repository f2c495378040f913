import { describe, expect, it } from 'vitest';
import { endOf } from '../../../src/components/log/entry-list.ts';

describe('the end of a month', () => {
  it.each([
    ['2026-03', new Date(2026, 3, 1)],
    ['2026-12', new Date(2027, 0, 1)],
    ['2024-02', new Date(2024, 2, 1)],
  ])('of %s is a millisecond before the next by the device’s clock', (month, next) => {
    expect(Date.parse(endOf(month))).toBe(next.getTime() - 1);
  });

  it('is a time of the first century where that was typed', () => {
    expect(endOf('0026-12') < '0100').toBe(true);
  });

  it('is after everything for what is no month', () => {
    expect(endOf('soon') > '9999-12-31').toBe(true);
  });
});
