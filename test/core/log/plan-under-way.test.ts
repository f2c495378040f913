/** Which plan the home page, the log and its calendar take for the one under way. */
import { describe, expect, it } from 'vitest';
import { stillStands } from '../../../src/core/log/plan-left.ts';
import { planUnderWay } from '../../../src/core/log/plan-under-way.ts';
import type { PlanEntry } from '../../../src/core/log/schema.ts';
import { at, kept } from '../progress/plans.ts';
import { plain } from '../water/plan/inputs.ts';
import { loggedValue, reading } from './samples.ts';

const plan = (next: PlanEntry['next'], rest: Partial<PlanEntry> = {}): PlanEntry => ({
  ...kept(plain()),
  next,
  ...rest,
});
const STEP = { kind: 'raise-salt', from: at(2) } as const;
const TEST = { kind: 'test', from: at(24), quantity: 'salt' } as const;
const read = (hours: number) => ({ ...reading(0, [loggedValue('salt', 3000, 100)]), time: at(hours) });

describe('the plan under way', () => {
  it('is the newest one with something left', () => {
    const [first, second] = [plan(STEP, { id: 'plan-0001' }), plan(null, { id: 'plan-0002', time: at(1) })];
    expect(planUnderWay([first, second], at(3))?.id).toBe('plan-0001');
    expect(planUnderWay([plan(STEP, { closed: at(1) })], at(3))).toBeNull();
    expect(planUnderWay([], at(3))).toBeNull();
  });

  it('waits for a step however long, and whatever was read meanwhile', () => {
    expect(planUnderWay([plan(STEP), read(30)], at(24 * 60))).not.toBeNull();
  });

  it('waits for its test until a reading has followed, or three days have passed', () => {
    expect(planUnderWay([read(-1), plan(TEST)], at(30))).not.toBeNull();
    expect(planUnderWay([plan(TEST), read(26)], at(30))).toBeNull();
    expect(planUnderWay([plan(TEST)], at(24 + 73))).toBeNull();
    expect(stillStands(TEST, at(24 + 71))).toBe(true);
  });
});
