/**
 * Two hundred plans, each page killed, closed or reloaded in the middle of its steps: no step lost, none logged twice.
 * The store is a stand-in for IndexedDB; a kill lets a transaction fail at any of its writes, or ends the page before or
 * after it. `test/pages/kept-plan.spec.ts` does the same to real tabs.
 */
import { IDBFactory, IDBObjectStore } from 'fake-indexeddb';
import { describe, expect, it, vi } from 'vitest';
import { KeptPlan, type ToWrite } from '../../../src/components/plan/kept-plan.ts';
import { Logbook } from '../../../src/browser/store/logbook.ts';
import type { Entry, PlanEntry } from '../../../src/core/log/schema.ts';
import { timesOf } from '../../../src/core/progress/progress.ts';
import { planFrom } from '../../../src/core/water/plan/make-plan.ts';
import type { Plan } from '../../../src/core/water/plan/types.ts';
import { emptyDevice, onDevice } from '../../browser/store/device.ts';
import { plain, reading } from '../../core/water/plan/inputs.ts';
import { randomFrom } from '../../core/log/random.ts';

emptyDevice();
vi.stubGlobal(
  'BroadcastChannel',
  class extends EventTarget {
    postMessage = (): void => undefined;
  },
);

interface Tab {
  readonly kept: KeptPlan;
  readonly logbook: Logbook;
}

/** A page of its own over the same device. */
async function tab(): Promise<Tab> {
  const store = await onDevice();
  const logbook = new Logbook({ store, lost: null, clockBehind: null, trouble: null });
  return { kept: new KeptPlan(() => Promise.resolve(logbook)), logbook };
}

function show(kept: KeptPlan, plan: Plan): void {
  kept.shown = plan;
  kept.atHand = plan.input.readings;
}

async function reopened(id: string): Promise<Tab> {
  const page = await tab();
  expect(await page.kept.reopen(id)).toBe(true);
  return page;
}

function planOf(change: Parameters<typeof plain>[0]): Plan {
  const outcome = planFrom(plain(change));
  if (!outcome.ok) throw new Error('no plan');
  return outcome.plan;
}

async function entriesOn({ logbook }: Tab): Promise<{ plans: PlanEntry[]; done: Entry[] }> {
  const all = await logbook.store.all('entries');
  const plans = all.filter((entry) => entry.kind === 'plan');
  return { plans, done: all.filter(({ kind }) => kind === 'addition' || kind === 'note') };
}

/** What the plan says is done, and what the logbook says, are the same, once each. */
async function expectSame(page: Tab, count: number): Promise<void> {
  const { plans, done } = await entriesOn(page);
  const ticked = plans.flatMap(({ rounds }) => rounds.flatMap((round) => round.done.map(({ entryId }) => entryId)));
  expect([...new Set(ticked)].sort()).toEqual(done.map(({ id }) => id).sort());
  expect(done).toHaveLength(count);
  const keys = plans.flatMap(({ rounds }) =>
    rounds.flatMap((round, i) => round.done.map(({ step, part }) => `${i} ${step} ${part}`)),
  );
  expect(new Set(keys).size).toBe(keys.length);
}

function partOf(kept: KeptPlan, amount: (planned: number) => number = (planned) => planned): ToWrite {
  const next = kept.standing()?.progress?.next ?? null;
  const step = next?.step ?? kept.shown!.steps[0]!;
  const planned = step.amount ? step.amount.exact / step.parts : (step.replace?.litresPerTime ?? null);
  const note = (common: object) => ({ ...common, kind: 'note', note: step.id }) as Entry;
  return {
    step: step.id,
    part: (next?.done.length ?? 0) + 1,
    planned,
    amount: planned === null ? null : amount(planned),
    entry: note,
  };
}

const KILLS = ['before', 'at the plan', 'at the entry', 'at the clock', 'after', 'none', 'none'] as const;

/** Does it in a page that is killed at that moment. @returns whether it was written */
async function killedWhile(kill: (typeof KILLS)[number], run: () => Promise<void>): Promise<void> {
  const nth = { 'at the plan': 1, 'at the entry': 2, 'at the clock': 3 }[kill as string];
  if (kill === 'before') return;
  if (nth === undefined) return run();
  // The function's `this` is the table.
  const put = Object.getOwnPropertyDescriptor(IDBObjectStore.prototype, 'put')!.value as (value: unknown) => IDBRequest;
  let count = 0;
  const spy = vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(function (this: IDBObjectStore, value) {
    count += 1;
    if (count === nth) throw new DOMException('killed', 'AbortError');
    return put.call(this, value) as never;
  });
  await run().catch(() => undefined);
  spy.mockRestore();
}

const POOLS = [
  () => ({
    readings: { ph: reading(8.1, 0.05), salt: reading(2000, 100) },
    pool: { chlorination: 'chlorinator', cell: { gramsPerHour: 20 } },
  }),
  () => ({ readings: { ph: reading(8.6, 0.05), 'total-alkalinity': reading(200, 10) } }),
  () => ({
    readings: {
      'total-alkalinity': reading(50, 4),
      'free-chlorine': reading(0.5, 0.2),
      'calcium-hardness': reading(120, 10),
    },
  }),
  () => ({ readings: { 'cyanuric-acid': reading(20, 3), 'free-chlorine': reading(1, 0.2), ph: reading(7.9, 0.05) } }),
];

describe('plans in pages that are killed', () => {
  const tens = async (first: number) => {
    for (let one = 0; one < 10; one++) {
      globalThis.indexedDB = new IDBFactory();
      await liveThrough(first + one);
    }
  };

  it('loses no step and logs none twice', () => tens(0));

  it.each(Array.from({ length: 19 }, (_, i) => 10 * (i + 1)))(
    'loses no step and logs none twice: ten plans from %i on',
    { tags: 'release' },
    (first) => tens(first),
  );

  it('lets one of two tabs write that press at once, and tells the other', async () => {
    const first = await tab();
    show(first.kept, planOf(POOLS[0]!()));
    await first.kept.keep(null);
    const second = await reopened(first.kept.entry!.id);
    const results = await Promise.allSettled([
      first.kept.markDone(partOf(first.kept), null),
      second.kept.markDone(partOf(second.kept), null),
    ]);
    expect(results.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected']);
    await expectSame(first, 1);
    // The one that was refused shows what the other did.
    expect(second.kept.entry!.revision).toBe(first.kept.entry!.revision);
  });

  it('takes a double press for one, on a plan that isn’t kept yet too', async () => {
    const page = await tab();
    show(page.kept, planOf(POOLS[0]!()));
    const what = partOf(page.kept);
    await Promise.allSettled([page.kept.markDone(what, null), page.kept.markDone(what, null)]);
    await expectSame(page, 1);
  });

  it('is put right by the form: what was done stays done, and the rest rests on what that made of the true water', async () => {
    const page = await tab();
    show(page.kept, planOf(POOLS[0]!()));
    await page.kept.markDone(partOf(page.kept), null);
    const { id, rounds } = page.kept.entry!;
    const [done] = rounds[0]!.done;
    page.kept.leave();
    // Salt was half of what had been typed.
    show(page.kept, planOf({ ...POOLS[0]!(), readings: { ph: reading(8.1, 0.05), salt: reading(1000, 100) } }));
    await page.kept.takeForm(id);
    const { plans } = await entriesOn(page);
    expect(plans).toHaveLength(1);
    expect(page.kept.entry!.rounds.map(({ because }) => because)).toEqual(['made', 'form']);
    expect(page.kept.entry!.rounds[0]!.done).toEqual([done]);
    const { readings } = page.kept.standing()!.plan!.input;
    expect(readings.ph!.value).toBeLessThan(8);
    expect(readings.salt!.value).toBeLessThan(1100);
    await expectSame(page, 1);
    await page.kept.takeBack();
    expect(page.kept.entry!.rounds).toHaveLength(1);
  });

  it('brings the entry back out of the plan together', async () => {
    const page = await tab();
    show(page.kept, planOf(POOLS[0]!()));
    await page.kept.markDone(
      partOf(page.kept, (planned) => planned / 2),
      null,
    );
    expect(page.kept.entry!.rounds).toHaveLength(2);
    await page.kept.takeBack();
    expect(page.kept.entry!.rounds).toHaveLength(1);
    await expectSame(page, 0);
    expect(await page.logbook.store.all('bin')).toHaveLength(1);
  });

  it('keeps what was typed for the plan as a reading, once', async () => {
    const page = await tab();
    show(page.kept, planOf(POOLS[0]!()));
    await page.kept.markDone(partOf(page.kept), null);
    const readings = (await page.logbook.store.all('entries')).filter((entry) => entry.kind === 'reading');
    expect(readings).toHaveLength(1);
    expect(readings[0]).toMatchObject({ id: page.kept.entry!.readingId, origin: 'typed' });
    expect(readings[0]!.values.find(({ quantity }) => quantity === 'ph')).toMatchObject({
      value: 8.1,
      method: 'unsaid',
    });
  });
});

/** One plan from its making to its end. */
async function liveThrough(seed: number): Promise<void> {
  const { uniform: random } = randomFrom(seed + 1);
  const pick = <T>(items: readonly T[]) => items[Math.floor(random() * items.length)]!;
  const plan = planOf(pick(POOLS)());
  let page = await tab();
  show(page.kept, plan);
  await page.kept.keep(null);
  const { id } = page.kept.entry!;
  let count = 0;
  const isOther = random() < 0.3;
  for (let presses = 0; presses < 40; presses++) {
    const left = page.kept.standing()!.progress!.next;
    if (!left) break;
    const kill = pick(KILLS);
    const other = isOther && random() < 0.3 ? 0.5 + random() : 1;
    const { kept } = page;
    await killedWhile(kill, () =>
      kept.markDone(
        partOf(kept, (planned) => planned * other),
        null,
      ),
    );
    if (kill === 'after' || kill === 'none') count += 1;
    if (kill !== 'none') {
      page.logbook.store.close();
      page = await reopened(id);
    }
    await expectSame(page, count);
    if (random() < 0.1 && count > 0) {
      await page.kept.takeBack();
      count -= 1;
      await expectSame(page, count);
    }
  }
  expect(page.kept.standing()!.progress!.next).toBeNull();
  const whole = plan.steps.reduce((sum, step) => sum + timesOf(step), 0);
  if (!isOther) expect(count).toBe(whole);
  page.logbook.store.close();
}
