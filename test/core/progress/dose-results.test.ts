/** A dose against the next reading. Salt by hand: 40 kg in 40 m3 raise it by 1,000 mg/L (mass over volume). */
import { describe, expect, it } from 'vitest';
import type { Entry, PlanEntry } from '../../../src/core/log/schema.ts';
import { doseResultsOf } from '../../../src/core/progress/dose-results.ts';
import { loggedValue, addition, reading as logged } from '../log/samples.ts';
import { at, doneAt, HIGH_PH, kept, planIn } from './plans.ts';
import { withDone } from '../../../src/core/progress/rounds.ts';

const salt = (hours: number, value: number, half = 60): Entry => ({
  ...logged(0, [loggedValue('salt', value, half)]),
  time: at(hours),
});

function salted(): PlanEntry {
  const entry = kept(HIGH_PH);
  const { plan } = planIn(entry);
  const step = plan.steps.find(({ kind }) => kind === 'raise-salt')!;
  return withDone(entry, plan, doneAt('salt', 1, step.amount!.exact));
}

const marked = (...entries: Entry[]) => doseResultsOf([salted(), ...entries])[0]!;

describe('a dose against the next reading', () => {
  it('says where it was to land, before anything was read', () => {
    const one = marked();
    expect(one).toMatchObject({ quantity: 'salt', kind: 'raise-salt', done: at(1), from: at(25), outcome: null });
    const grams = planIn(kept(HIGH_PH)).plan.steps.find(({ kind }) => kind === 'raise-salt')!.amount!.exact;
    expect(one.predicted.value - one.before.value).toBeCloseTo((1000 * grams) / 40_000, -1);
  });

  it('landed where the reading’s interval meets it', () => {
    const due = marked().predicted.value;
    expect(marked(salt(30, due + 50)).outcome).toBe('landed');
  });

  it('fell short, went beyond, and by what share', () => {
    const { before, predicted } = marked();
    const change = predicted.value - before.value;
    const short = marked(salt(30, before.value + 0.5 * change));
    expect(short.outcome).toBe('short');
    expect(short.ratio!.value).toBeCloseTo(0.5, 6);
    expect(short.ratio!.low).toBeLessThan(0.5);
    expect(marked(salt(30, predicted.value + change)).outcome).toBe('beyond');
  });

  it('is not judged by a test that came too early, or after something else went in', () => {
    const due = marked().predicted.value;
    expect(marked(salt(5, due))).toMatchObject({ reading: null, untold: 'untested', until: at(1 + 21 * 24) });
    const more: Entry = { ...addition(0, 'salt'), time: at(26) };
    expect(marked(more, salt(30, due + 900))).toMatchObject({ outcome: null, untold: 'disturbed' });
    const bound = { ...loggedValue('salt', 5000, 100), openAbove: true };
    expect(marked({ ...logged(0, [bound]), time: at(30) })).toMatchObject({ outcome: null, untold: 'bound' });
  });

  it('gives no share that is known too poorly', () => {
    const { before, predicted } = marked();
    const change = predicted.value - before.value;
    expect(marked(salt(30, before.value + 0.2 * change, 0.8 * change)).ratio).toBeNull();
  });

  it('expects nothing of a dose that wasn’t the planned one', () => {
    const entry = kept(HIGH_PH);
    const { plan } = planIn(entry);
    const step = plan.steps.find(({ kind }) => kind === 'raise-salt')!;
    const other = withDone(entry, plan, doneAt('salt', 1, step.amount!.exact, step.amount!.exact / 2));
    expect(doseResultsOf([other])).toEqual([]);
  });
});
