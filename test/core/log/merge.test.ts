import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  isIdle,
  outlineOf,
  planMerge,
  type Changes,
  type MergePlan,
  type Present,
} from '../../../src/core/log/merge.ts';
import type { Entry, LogData, Pool } from '../../../src/core/log/schema.ts';
import { importRecord, planUndo, type UndoPlan } from '../../../src/core/log/undo.ts';
import { entry, pool } from './arbitrary.ts';
import { POOL, reading } from './samples.ts';

const present = (data: LogData, binned: readonly Entry[] = []): Present => ({
  ...data,
  scales: [],
  choices: [],
  binned: new Set(binned.map(({ id }) => id)),
  pictureIds: new Set(),
});
const incoming = (data: LogData) => ({ ...data, scales: [], pictures: [], choices: [] });
/** The logbook after the merge. */
function applyMerge({ pools, entries }: LogData, plan: MergePlan): LogData {
  return { pools: applyChanges(pools, plan.pools), entries: applyChanges(entries, plan.entries) };
}

function applyChanges<T extends { readonly id: string }>(present: readonly T[], { add, replace }: Changes<T>): T[] {
  const after = new Map(replace.map((change) => [change.before.id, change.after]));
  return [...present.map((item) => after.get(item.id) ?? item), ...add];
}

const merge = (a: LogData, b: LogData) => applyMerge(a, planMerge(present(a), incoming(b)));

/** Few ids, so that the same thing comes up in several copies. */
const ids = fc.constantFrom('thing-1', 'thing-2', 'thing-3', 'thing-4', 'thing-5');
const data: fc.Arbitrary<LogData> = fc.record({
  pools: fc.uniqueArray(
    fc.tuple(pool, fc.constantFrom('pool-1', 'pool-2')).map(([each, id]): Pool => ({ ...each, id })),
    { selector: ({ id }) => id, maxLength: 2 },
  ),
  entries: fc.uniqueArray(
    fc
      .tuple(entry(fc.constantFrom('pool-1', 'pool-2')), ids)
      .map(([each, id]): Entry => ({ ...each, id, pictureId: null }) as Entry),
    { selector: ({ id }) => id, maxLength: 5 },
  ),
});
const inOrder = ({ pools, entries }: LogData) => ({
  pools: [...pools].sort((a, b) => (a.id < b.id ? -1 : 1)),
  entries: [...entries].sort((a, b) => (a.id < b.id ? -1 : 1)),
});
/** The stand-in for a pool that no file describes depends on which file came first; its name is never typed. */
const described = (log: LogData) => log.entries.every(({ poolId }) => log.pools.some(({ id }) => id === poolId));
const whole = data.filter(described);

describe('merging', () => {
  it('adds nothing the second time', () => {
    fc.assert(
      fc.property(data, data, (a, b) => {
        const once = merge(a, b);
        expect(isIdle(outlineOf(planMerge(present(once), incoming(b))))).toBe(true);
        expect(merge(once, b)).toEqual(once);
      }),
      { seed: 1, numRuns: 500 },
    );
  });

  it('gives the same whichever device merges the other', () => {
    fc.assert(
      fc.property(whole, whole, (a, b) => {
        expect(inOrder(merge(a, b))).toEqual(inOrder(merge(b, a)));
      }),
      { seed: 2, numRuns: 500 },
    );
  });

  it('gives the same in whatever order three come together', () => {
    fc.assert(
      fc.property(whole, whole, whole, (a, b, c) => {
        expect(inOrder(merge(merge(a, b), c))).toEqual(inOrder(merge(a, merge(b, c))));
      }),
      { seed: 3, numRuns: 500 },
    );
  });

  it('loses no id, doubles none, and never goes back a revision', () => {
    fc.assert(
      fc.property(data, data, (a, b) => {
        const merged = merge(a, b);
        const all = new Set([...a.entries, ...b.entries].map(({ id }) => id));
        expect(new Set(merged.entries.map(({ id }) => id))).toEqual(all);
        expect(merged.entries).toHaveLength(all.size);
        for (const { id, revision } of merged.entries) {
          for (const source of [a, b]) {
            const copy = source.entries.find((each) => each.id === id);
            expect(revision).toBeGreaterThanOrEqual(copy?.revision ?? 0);
          }
        }
      }),
      { seed: 4, numRuns: 500 },
    );
  });

  it('knows the same entry under another id', () => {
    const mine = reading(1, []);
    const plan = planMerge(
      present({ pools: [POOL], entries: [mine] }),
      incoming({ pools: [], entries: [{ ...mine, id: 'another-id', edited: '2027-01-01T00:00:00.000Z' }] }),
    );
    expect(plan.entries).toMatchObject({ add: [], replace: [], same: 1 });
  });

  it('goes by revisions where a clock was set back', () => {
    const mine = {
      ...reading(1, []),
      revision: 3,
      edited: '2020-01-01T00:00:00.000Z',
      note: 'later, by a clock set back',
    };
    const theirs = { ...mine, revision: 2, edited: '2026-06-02T00:00:00.000Z', note: 'earlier' };
    const plan = planMerge(present({ pools: [POOL], entries: [mine] }), incoming({ pools: [], entries: [theirs] }));
    expect(plan.entries).toMatchObject({ add: [], replace: [], older: 1 });
  });

  it('makes a pool for entries that name one nobody describes', () => {
    const plan = planMerge(
      present({ pools: [], entries: [] }),
      incoming({ pools: [], entries: [reading(1, [], { poolId: 'lost-pool' })] }),
    );
    expect(plan.pools.add).toMatchObject([{ id: 'lost-pool' }]);
  });

  it('brings pictures that something shows, and no others', () => {
    const shown = reading(1, [], { pictureId: 'picture-1' });
    const plan = planMerge(
      { ...present({ pools: [POOL], entries: [] }), pictureIds: new Set(['picture-2']) },
      {
        ...incoming({ pools: [], entries: [shown, reading(2, [], { pictureId: 'picture-2' })] }),
        pictures: ['picture-1', 'picture-2', 'picture-3'].map((id) => ({ id, base64: '/9j/' })),
      },
    );
    expect(plan.pictureIds).toEqual(['picture-1']);
  });
});

describe('undoing an import', () => {
  const about = { id: 'import-1', time: '2026-07-01T00:00:00.000Z', fileName: 'log.json' };

  it('restores what was there before', () => {
    fc.assert(
      fc.property(whole, data, (a, b) => {
        const plan = planMerge(present(a), incoming(b));
        const after = applyMerge(a, plan);
        const record = importRecord(plan, { ...about, binned: [] });
        const undo = planUndo({ ...after, scales: [], choices: [] }, record);
        expect(undo.kept).toBe(0);
        expect(inOrder(applyUndo(after, undo))).toEqual(inOrder(a));
      }),
      { seed: 5, numRuns: 500 },
    );
  });

  it('leaves alone what was changed since', () => {
    const theirs = reading(1, []);
    const plan = planMerge(present({ pools: [POOL], entries: [] }), incoming({ pools: [], entries: [theirs] }));
    const touched = { ...theirs, revision: 2, note: 'a note of my own' };
    const record = importRecord(plan, { ...about, binned: [] });
    const undo = planUndo({ pools: [POOL], entries: [touched], scales: [], choices: [] }, record);
    expect(undo).toMatchObject({ removeEntries: [], kept: 1 });
  });

  it('puts back into the bin what it took out of it', () => {
    const deleted = reading(1, []);
    const plan = planMerge(
      present({ pools: [POOL], entries: [] }, [deleted]),
      incoming({ pools: [], entries: [deleted] }),
    );
    expect(plan.outOfBin).toEqual([deleted.id]);
    const record = importRecord(plan, { ...about, binned: [deleted] });
    const undo = planUndo({ pools: [POOL], entries: [deleted], scales: [], choices: [] }, record);
    expect(undo).toMatchObject({ removeEntries: [deleted.id], putInBin: [deleted] });
  });
});

function applyUndo(log: LogData, undo: UndoPlan): LogData {
  const put = <T extends { readonly id: string }>(items: readonly T[], back: readonly T[], gone: readonly string[]) =>
    items.filter(({ id }) => !gone.includes(id)).map((item) => back.find(({ id }) => id === item.id) ?? item);
  return {
    pools: put(log.pools, undo.putPools, undo.removePools),
    entries: put(log.entries, undo.putEntries, undo.removeEntries),
  };
}
