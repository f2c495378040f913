/** A kept plan: what is done stays done, waits run, other amounts make another rest. */
import { describe, expect, it } from 'vitest';
import { planEntrySchema, type PlanEntry } from '../../../src/core/log/schema.ts';
import { opened, lastDone, withDone, withoutLast, workedAnew } from '../../../src/core/progress/rounds.ts';
import { nextTest } from '../../../src/core/log/next-test.ts';
import { loggedValue, reading as logged } from '../log/samples.ts';
import { plain, reading } from '../water/plan/inputs.ts';
import { at, doneAt, HIGH_PH, kept, MADE, planIn } from './plans.ts';

const states = (entry: PlanEntry, hours = 0) =>
  planIn(entry, at(hours)).progress.steps.map(({ step, state }) => `${step.id} ${state}`);

function exactAmount(entry: PlanEntry, id: string): number {
  return planIn(entry).plan.steps.find((step) => step.id === id)!.amount!.exact;
}

describe('a kept plan', () => {
  it('begins with its first step, and the others come later', () => {
    const [first, ...rest] = states(kept(HIGH_PH));
    expect(first).toMatch(/ now$/);
    expect(rest.length).toBeGreaterThan(0);
    expect(rest.every((state) => state.endsWith(' later'))).toBe(true);
  });

  it('has a done step done, and lets the next one wait as long as the plan says', () => {
    const entry = kept(HIGH_PH);
    const { plan } = planIn(entry);
    const [first, second] = plan.steps;
    const amount = exactAmount(entry, first!.id);
    const after = withDone(entry, plan, doneAt(first!.id, 1, amount));
    expect(after.rounds).toHaveLength(1);
    const wait = second!.waitFirst!.hours;
    expect(states(after, 1 + wait - 0.01).slice(0, 2)).toEqual([`${first!.id} done`, `${second!.id} waits`]);
    expect(states(after, 1 + wait)[1]).toBe(`${second!.id} now`);
    expect(after.next).toEqual({ kind: second!.kind, from: at(1 + wait) });
  });

  it('lets a part wait for its hours and for a test of what it moves', () => {
    const entry = kept(plain({ readings: { ph: reading(8.6, 0.05), 'total-alkalinity': reading(200, 10) } }));
    const { plan } = planIn(entry);
    const split = plan.steps.find(({ parts }) => parts > 1)!;
    const before = plan.steps.slice(0, plan.steps.indexOf(split));
    const started = before.reduce((one, step) => withDone(one, plan, doneAt(step.id, 0, null)), entry);
    const share = split.amount!.exact / split.parts;
    const after = withDone(started, plan, doneAt(split.id, 1, share));
    const next = (hours: number, tested: Parameters<typeof opened>[1] = []) =>
      opened(after, tested, at(hours)).progress!.next!;
    expect(next(1.1).state).toBe('waits');
    expect(next(1 + split.hoursBetweenParts).state).toBe('for-test');
    expect(next(1 + split.hoursBetweenParts).tests).toEqual(['ph']);
    const read = (hours: number) => [{ time: at(hours), quantities: ['ph' as const] }];
    expect(next(1 + split.hoursBetweenParts, read(0.9)).state).toBe('for-test');
    expect(next(1 + split.hoursBetweenParts, read(2)).state).toBe('now');
  });

  it('works the rest out by the month in which it is done', () => {
    const entry = kept({ ...HIGH_PH, month: 'may' });
    const { plan } = planIn(entry);
    const acid = plan.steps.find(({ kind }) => kind === 'lower-ph')!;
    const { rounds } = withDone(entry, plan, doneAt(acid.id, 1, acid.amount!.exact, acid.amount!.exact / 2));
    expect(rounds.map(({ input }) => input['month'])).toEqual(['may', 'jun']);
  });

  it('works the rest out anew where less went in than planned, and asks for what is missing', () => {
    const entry = kept(HIGH_PH);
    const { plan } = planIn(entry);
    const acid = plan.steps.find(({ kind }) => kind === 'lower-ph')!;
    const before = plan.steps.slice(0, plan.steps.indexOf(acid));
    const started = before.reduce((one, step) => withDone(one, plan, doneAt(step.id, 0, null)), entry);
    const whole = acid.amount!.exact;
    const after = withDone(started, plan, doneAt(acid.id, 1, whole, whole * 0.15));
    expect(after.rounds.map(({ because }) => because)).toEqual(['made', 'amount']);
    const { plan: rest, progress } = planIn(after, at(1));
    const more = rest.steps.find(({ kind }) => kind === 'lower-ph');
    // What is left of the dose, from the same chemistry: acid adds up.
    expect(more!.amount!.exact).toBeGreaterThan(0.7 * whole);
    expect(more!.amount!.exact).toBeLessThan(whole);
    expect(progress.earlier.map(({ done }) => done.amount)).toContain(whole * 0.15);
    // It isn't poured after the first part at once.
    expect(progress.next!.state).toBe('waits');
  });

  it('needs no salt any more where all of it, and more, went in', () => {
    const entry = kept(HIGH_PH);
    const { plan } = planIn(entry);
    const salt = plan.steps.find(({ kind }) => kind === 'raise-salt')!;
    const after = withDone(entry, plan, doneAt(salt.id, 1, salt.amount!.exact, salt.amount!.exact * 1.2));
    expect(planIn(after).plan.steps.map(({ kind }) => kind)).not.toContain('raise-salt');
    expect(planIn(after).plan.input.readings.salt!.value).toBeGreaterThan(2000 + (1.1 * salt.amount!.exact) / 40);
  });

  it('takes back what was done last, with the rest that was worked out from it', () => {
    const entry = kept(HIGH_PH);
    const { plan } = planIn(entry);
    const [first] = plan.steps;
    const amount = exactAmount(entry, first!.id);
    const exact = withDone(entry, plan, doneAt(first!.id, 1, amount));
    expect(withoutLast(exact, at(2))).toEqual(entry);
    const other = withDone(entry, plan, doneAt(first!.id, 1, amount, amount / 2));
    expect(lastDone(other)!.amount).toBe(amount / 2);
    expect(withoutLast(other, at(2))).toEqual(entry);
    expect(withoutLast(entry, MADE)).toBe(entry);
  });

  it('goes on from a new reading, with what was done kept', () => {
    const entry = kept(HIGH_PH);
    const { plan } = planIn(entry);
    const after = withDone(entry, plan, doneAt(plan.steps[0]!.id, 1, 100, 100));
    const anew = workedAnew(after, plain() as never, 'reading', at(9));
    expect(anew.rounds.map(({ because }) => because)).toEqual(['made', 'reading']);
    expect(planIn(anew).progress.earlier).toHaveLength(1);
    expect(planIn(anew).plan.steps).toEqual([]);
  });

  it('is over when all is done, and then asks for its tests from the last dose on', () => {
    const entry = kept(HIGH_PH);
    const { plan } = planIn(entry);
    const all = plan.steps.reduce((one, step, i) => {
      const times = step.replace?.times ?? step.parts;
      return Array.from({ length: times }, (_, part) => part + 1).reduce(
        (state, part) => withDone(state, plan, doneAt(step.id, 10 * i + part, null, null, part)),
        one,
      );
    }, entry);
    const { progress } = planIn(all, at(100));
    expect(progress.next).toBeNull();
    expect(progress.dueTests.length).toBe(plan.retests.length);
    expect(all.next!.kind).toBe('test');
    // The log and its calendar say the same.
    const next = nextTest([all], () => null, new Map(), at(41))!;
    expect(next).toMatchObject({ reason: 'plan', time: all.next!.from, quantity: all.next!.quantity });
    const read = { ...logged(0, [loggedValue('ph', 7.4, 0.1)]), time: at(60) };
    expect(nextTest([all, read], () => null, new Map(), at(61))!.reason).not.toBe('plan');
    const first = progress.dueTests.find(({ reading: id }) => id === plan.retests[0]!.reading)!;
    expect(Date.parse(first.from) - Date.parse(progress.lastDone!)).toBeCloseTo(
      plan.retests[0]!.afterHours * 3_600_000,
      -2,
    );
  });

  it('can be carried by the logbook at every state', () => {
    const entry = kept(HIGH_PH);
    const { plan } = planIn(entry);
    const after = withDone(entry, plan, doneAt(plan.steps[0]!.id, 1, 200, 130));
    for (const one of [entry, after]) {
      expect(planEntrySchema.parse(JSON.parse(JSON.stringify(one)))).toEqual(one);
    }
  });

  it('says that it can’t be worked out where its input is no plan’s, and keeps what was done', () => {
    const entry = kept({ pool: 'round' });
    expect(opened(entry, [], MADE)).toMatchObject({ plan: null, progress: null });
    expect(entry.next).toBeNull();
  });
});
