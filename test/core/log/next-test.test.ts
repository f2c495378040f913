/** When a reading will have left its span: worked cases at the edges of the rule. */
import { describe, expect, it } from 'vitest';
import { driftPerDay, nextTest, type Tested } from '../../../src/core/log/next-test.ts';
import { ROUTINE_DAYS } from '../../../src/core/pool/test-times.ts';
import type { Agent } from '../../../src/core/log/schema.ts';
import { addition, dayTime, loggedValue, reading } from './samples.ts';

const series = (quantity: Tested, values: readonly number[], from = 0) =>
  values.map((value, day) => reading(from + day, [loggedValue(quantity, value)]));
const target = () => ({ low: 2, high: 6 });

describe('nextTest', () => {
  it('gives the earliest need of all quantities', () => {
    const entries = [...series('total-alkalinity', [90]), ...series('ph', [7.4], 1)];
    const due = { quantity: 'ph', time: dayTime(1 + ROUTINE_DAYS.ph), reason: 'rule' };
    expect(nextTest(entries, () => null, dayTime(1))).toMatchObject(due);
    expect(nextTest(entries.toReversed(), () => null, dayTime(1))).toMatchObject(due);
  });

  it('is overdue from the very minute on', () => {
    const entries = series('ph', [7.4]);
    expect(nextTest(entries, () => null, dayTime(ROUTINE_DAYS.ph))).toMatchObject({ overdue: true });
    expect(nextTest(entries, () => null, dayTime(ROUTINE_DAYS.ph - 0.01))).toMatchObject({ overdue: false });
  });

  it('follows a rise to the upper end: 1 mg/L of room at 1 a day', () => {
    expect(nextTest(series('free-chlorine', [2, 3, 4, 5]), target, dayTime(3))).toMatchObject({
      time: dayTime(4),
      reason: 'drift',
    });
  });

  it('leaves half a day where the value is at the end of its span, or outside', () => {
    for (const values of [
      [4, 3, 2],
      [3, 2, 1],
      [4, 5, 6],
      [5, 6, 7],
    ]) {
      expect(nextTest(series('free-chlorine', values), target, dayTime(2))).toMatchObject({
        time: dayTime(2.5),
        reason: 'drift',
      });
    }
  });

  it('goes by the rule where the drift may as well be none, or nobody says where the value should lie', () => {
    // Up and down by 2 mg/L: the slope's interval reaches to both sides of 0.
    expect(nextTest(series('free-chlorine', [3, 5, 2.5, 4.5]), target, dayTime(3))).toMatchObject({ reason: 'rule' });
    expect(nextTest(series('free-chlorine', [5, 4, 3]), () => null, dayTime(2))).toMatchObject({ reason: 'rule' });
  });
});

describe('driftPerDay', () => {
  /* What acts on what is chemistry; which of it moves a reading enough to count is common practice, no source. */
  const movers: Record<Tested, readonly Agent[]> = {
    // Both chlorines rise with it and fall with thiosulfate; who knows what 'other' is.
    'free-chlorine': ['chlorine', 'chlorine-remover', 'other', 'water'],
    'total-chlorine': ['chlorine', 'chlorine-remover', 'other', 'water'],
    // Hypochlorite is a base and trichlor an acid; so is cyanuric acid.
    ph: ['acid', 'base', 'bicarbonate', 'chlorine', 'stabilizer', 'other', 'water'],
    'total-alkalinity': ['acid', 'base', 'bicarbonate', 'other', 'water'],
    'total-hardness': ['calcium', 'other', 'water'],
    // So does calcium hypochlorite bring calcium.
    'calcium-hardness': ['calcium', 'chlorine', 'other', 'water'],
    // Dichlor and trichlor bring cyanuric acid.
    'cyanuric-acid': ['stabilizer', 'chlorine', 'other', 'water'],
    salt: ['salt', 'other', 'water'],
    boron: ['other', 'water'],
  };
  const cases = Object.entries(movers) as [Tested, readonly Agent[]][];
  /** Falls by a half a day, but for one jump. */
  const jumped = (quantity: Tested, agent: Agent) => [
    ...series(quantity, [6, 5.5, 5, 4.5]),
    addition(3.5, agent),
    ...series(quantity, [9, 8.5, 8], 4),
  ];

  it.each(cases)('of %s is broken by %j', (quantity, agents) => {
    for (const agent of agents) expect(driftPerDay(jumped(quantity, agent), quantity)!.value).toBeCloseTo(-0.5, 9);
  });

  it.each([
    ['free-chlorine', 'acid'],
    ['ph', 'calcium'],
    ['ph', 'salt'],
    ['total-alkalinity', 'salt'],
    ['total-hardness', 'acid'],
    ['cyanuric-acid', 'base'],
    ['salt', 'bicarbonate'],
  ] as const)('of %s is not broken by %s', (quantity, agent) => {
    expect(driftPerDay(jumped(quantity, agent), quantity)!.value).toBeGreaterThan(0);
  });

  it('is unknown without readings, and from one', () => {
    expect(driftPerDay([], 'ph')).toBeNull();
    expect(driftPerDay(series('ph', [7.4]), 'ph')).toBeNull();
  });
});
