/** What a plan starts from: the surer of two, and the reading where they can't both be right. */
import { describe, expect, it } from 'vitest';
import { planStart } from '../../../src/core/track/plan-start.ts';
import { loggedValue, POOL, reading } from '../log/samples.ts';

/** Strips of one scale, a week apart, that differ by chance. */
const weeks = (values: readonly number[]) =>
  values.map((value, i) => reading(7 * i, [loggedValue('cyanuric-acid', value, 15), loggedValue('ph', 7.5, 0.2)]));

describe('what a plan starts from', () => {
  it('takes the estimate of what moves slowly where several readings are surer than one', () => {
    const before = weeks([45, 55, 48, 52, 44, 56]);
    const { rows } = planStart(before, POOL, reading(43, [loggedValue('cyanuric-acid', 60, 15)]));
    const row = rows.find(({ quantity }) => quantity === 'cyanuric-acid')!;
    expect(row).toMatchObject({ uses: 'estimate', why: 'estimate-is-surer', reading: { value: 60 } });
    expect(row.estimate!.high - row.estimate!.low).toBeLessThan(0.9 * 30);
    expect(row.estimate!.value).toBeGreaterThan(45);
    expect(row.estimate!.value).toBeLessThan(58);
  });

  it('leaves pH and chlorine to the test at hand: within hours 7.7 may have become 8.2', () => {
    const before = Array.from({ length: 8 }, (_, i) =>
      reading(7 * i, [loggedValue('ph', 7.7, 0.2), loggedValue('free-chlorine', 2, 1), loggedValue('salt', 3200, 400)]),
    );
    const values = [
      { ...loggedValue('ph', 8.0, 0.4), openAbove: true },
      loggedValue('free-chlorine', 3, 1.5),
      loggedValue('total-chlorine', 3.5, 1.5),
      loggedValue('salt', 3300, 600),
    ];
    const { rows } = planStart(before, POOL, reading(56, values));
    const quick = rows.filter(({ quantity }) => quantity !== 'salt');
    expect(quick.map(({ quantity }) => quantity).sort()).toEqual(['free-chlorine', 'ph', 'total-chlorine']);
    for (const row of quick) expect(row.uses, row.quantity).toBe('reading');
    const ph = quick.find(({ quantity }) => quantity === 'ph')!;
    expect(ph).toMatchObject({ why: 'moves-in-hours', reading: { value: 8 } });
    expect(ph.estimate).not.toBeNull();
    expect(rows.find(({ quantity }) => quantity === 'salt')).toMatchObject({
      uses: 'estimate',
    });
  });

  it('gives what was not read this time, but no pH of last week', () => {
    const { rows } = planStart(weeks([45, 55, 48]), POOL, reading(15, [loggedValue('free-chlorine', 2, 0.5)]));
    expect(rows.find(({ quantity }) => quantity === 'cyanuric-acid')).toMatchObject({
      uses: 'estimate',
      why: 'only-estimate',
      reading: null,
    });
    expect(rows.map(({ quantity }) => quantity)).not.toContain('ph');
  });

  it('has nothing but the reading to go by in an empty logbook', () => {
    const { rows, oddities } = planStart([], POOL, reading(1, [loggedValue('salt', 3000, 300)]));
    expect(rows).toMatchObject([{ quantity: 'salt', uses: 'reading', why: 'only-reading', estimate: null }]);
    expect(oddities).toEqual([]);
  });

  it('says that a reading doesn’t fit, and doesn’t talk it away', () => {
    const { rows, oddities } = planStart(weeks([48, 52, 50, 49, 51]), POOL, reading(36, [loggedValue('ph', 6.4, 0.2)]));
    const row = rows.find(({ quantity }) => quantity === 'ph')!;
    expect(row).toMatchObject({ uses: 'reading', why: 'reading-does-not-fit' });
    // Beside it stands what the others say, without it.
    expect(row.estimate!.value).toBeGreaterThan(7.2);
    expect(oddities).toMatchObject([{ kind: 'unconfirmed', quantity: 'ph', value: 6.4 }]);
  });
});
