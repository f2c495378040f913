import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Choice,
  CHOICE_GROUPS,
  choiceSchema,
  consented,
  mergeChoices,
  undoChoices,
} from '../../../src/core/log/choices.ts';
import { choices } from './arbitrary.ts';

const keyed = (list: readonly Choice[]) => new Map(list.map((choice) => [choice.key, choice.value]));

function applied(present: readonly Choice[], { add, replace }: ReturnType<typeof mergeChoices>): Choice[] {
  const after = new Map(replace.map((change) => [change.after.key, change.after]));
  return [...present.map((choice) => after.get(choice.key) ?? choice), ...add];
}

function undone(present: readonly Choice[], { remove, put }: ReturnType<typeof undoChoices>): Choice[] {
  const back = new Map(put.map((choice) => [choice.key, choice]));
  const gone = new Set(remove);
  return present.filter(({ key }) => !gone.has(key)).map((choice) => back.get(choice.key) ?? choice);
}

describe('choices out of a file', () => {
  it('fill in what is blank and leave what is here, unless they may take its place', () => {
    fc.assert(
      fc.property(choices, choices, fc.subarray([...CHOICE_GROUPS]), (here, file, groups) => {
        const after = keyed(applied(here, consented(mergeChoices(here, file), new Set(groups))));
        const [mine, theirs] = [keyed(here), keyed(file)];
        for (const [key, value] of after) {
          const mayReplace = groups.some((group) => key.startsWith(`${group}.`));
          const expected = theirs.has(key) && (mayReplace || !mine.has(key)) ? theirs.get(key) : mine.get(key);
          expect(value).toEqual(expected);
        }
        expect(after.size).toBe(new Set([...mine.keys(), ...theirs.keys()]).size);
      }),
      { seed: 31, numRuns: 500 },
    );
  });

  it('can be taken back, and what was chosen since then stays', () => {
    fc.assert(
      fc.property(choices, choices, choices, (here, file, since) => {
        const changes = mergeChoices(here, file);
        const after = applied(here, changes);
        expect(keyed(undone(after, undoChoices(after, changes)))).toEqual(keyed(here));
        const later = applied(after, mergeChoices(after, since));
        const back = keyed(undone(later, undoChoices(later, changes)));
        for (const { key, value } of since) {
          if (JSON.stringify(value) !== JSON.stringify(keyed(after).get(key))) expect(back.get(key)).toEqual(value);
        }
      }),
      { seed: 32, numRuns: 500 },
    );
  });

  it.each([
    { key: 'settings.units', value: 'furlongs' },
    { key: 'settings.secret', value: 'x' },
    { key: 'plan.pool.volumeLitres', value: { low: 1 } },
    { key: 'plan.pool.__proto__', value: 1 },
    { key: 'plan.elsewhere.ph', value: 1 },
    { key: 'plan.pool.surface', value: 'a\u0000b' },
    { key: 'plan.spans', value: { ph: { low: 8, high: 7 } } },
    { key: 'plan.shelf', value: { '<b>': '1' } },
    { key: 'plan.shelf', value: { 'soda-ash<b>': '1' } },
    { key: 'plan.shelf', value: { '1-soda-ash': '1' } },
    { key: 'my.plan.pool.surface', value: 'x' },
    { key: 'plan.pool', value: 'x' },
    { key: 'plan.pool.a.b.c.d', value: 'x' },
    { key: 'plan.pool.surface!', value: 'x' },
    { key: 'plan.pool.-', value: 'x' },
    { key: 'plan.spans', value: { ph: { low: 7 } } },
    { key: 'settings.sound', value: 'loud' },
  ])('%j is refused', (choice) => {
    expect(choiceSchema.safeParse(choice).success).toBe(false);
  });

  it.each([
    { key: 'settings.sound', value: 'off' },
    { key: 'settings.pool', value: 'hillside-pool' },
    { key: 'plan.targets.free-chlorine.low', value: 2 },
    { key: 'plan.pool.surface', value: 'plaster' },
    { key: 'plan.pool.a.b.c', value: 1 },
    { key: 'plan.shelf', value: { 'soda-ash': '', a1: '12 %' } },
    { key: 'plan.spans', value: { ph: { low: 7.5, high: 7.5 } } },
  ])('%j is taken', (choice) => {
    expect(choiceSchema.parse(choice)).toEqual(choice);
  });

  it('say how many were the same', () => {
    const [on, off]: Choice[] = [
      { key: 'settings.sound', value: 'on' },
      { key: 'settings.sound', value: 'off' },
    ];
    const units: Choice = { key: 'plan.pool.surface', value: 'plaster' };
    expect(mergeChoices([on!], [on!, units])).toEqual({ add: [units], replace: [], same: 1 });
    // Of two in one file the last counts.
    expect(mergeChoices([on!], [on!, off!])).toEqual({ add: [], replace: [{ before: on, after: off }], same: 0 });
    expect(undoChoices([off!], { add: [units], replace: [{ before: on!, after: off! }] })).toEqual({
      remove: [],
      put: [on],
      kept: 0,
    });
    expect(undoChoices([on!, units], { add: [units, on!], replace: [{ before: on!, after: off! }] })).toEqual({
      remove: [units.key, on!.key],
      put: [],
      kept: 1,
    });
  });
});
