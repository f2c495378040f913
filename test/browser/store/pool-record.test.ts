/** One record of the pool: what the plan's form was told stands in the logbook, and the form shows the logbook's pool. */
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { isNoPools, keptChoices } from '../../../src/browser/choices.ts';
import { keepTyped, keptForm } from '../../../src/browser/plan-form.ts';
import { addPool, changePool } from '../../../src/browser/store/changes.ts';
import { Logbook } from '../../../src/browser/store/logbook.ts';
import { openStore } from '../../../src/browser/store/open.ts';
import { withVolume } from '../../../src/core/log/pool-record.ts';
import { chlorineMadePerDay, fillOf } from '../../../src/core/log/pool-supply.ts';
import { loggedValue, POOL, reading } from '../../core/log/samples.ts';
import { emptyDevice, events } from './device.ts';

emptyDevice();
vi.stubGlobal(
  'BroadcastChannel',
  class extends EventTarget {
    postMessage = (): void => undefined;
  },
);
beforeEach(() => {
  const items = new Map<string, string>();
  vi.stubGlobal('localStorage', {
    getItem: (key: string) => items.get(key) ?? null,
    setItem: (key: string, value: string) => void items.set(key, value),
    removeItem: (key: string) => void items.delete(key),
  });
});

const opened: Logbook[] = [];
async function openedLogbook(): Promise<Logbook> {
  const logbook = new Logbook(await openStore(events));
  opened.push(logbook);
  return logbook;
}
afterEach(() => {
  for (const { store } of opened.splice(0)) (store as { close?: () => void }).close?.();
});

const type = (fields: Record<string, unknown>) => keepTyped({ fields, shelf: {}, bottles: {} });
const TOLD = { 'pool.volumeLitres': 27_000, 'pool.surface': 'vinyl', 'fill.calcium-hardness': 120 };
const details = { 'pool.surface': 'vinyl', 'fill.calcium-hardness': 120 };
const stored = async ({ store }: Logbook, id = POOL.id) => (await store.get('pools', id))!;

describe('what the form was told', () => {
  it('comes into the logbook with its first entry, targets apart', async () => {
    type({ ...TOLD, 'pool.cover': '', 'targets.ph.low': 7.3 });
    const logbook = await openedLogbook();
    const pool = await logbook.pool();
    expect(pool).toMatchObject({ volumeLitres: 27_000, details });
    expect(await logbook.store.all('pools')).toEqual([]);
    const told = keptChoices().filter(isNoPools);
    expect(told.filter(({ key }) => key !== 'plan.pool.cover' && key !== 'plan.shelf')).toHaveLength(4);
    await logbook.keepEntry({ ...reading(1, [loggedValue('ph', 7.4)]), poolId: pool.id });
    expect(await stored(logbook, pool.id)).toMatchObject({ volumeLitres: 27_000, details });
    await logbook.pool();
    expect(keptForm()!.fields).toEqual({ ...TOLD, 'targets.ph.low': 7.3 });
    expect(
      keptChoices()
        .filter(isNoPools)
        .map(({ key }) => key),
    ).toEqual(['plan.targets.ph.low', 'plan.shelf']);
  });

  it('comes into a pool of an older version, whose volume stays where the form has none', async () => {
    const logbook = await openedLogbook();
    await logbook.write(addPool(POOL));
    type({ 'pool.surface': 'tile' });
    await logbook.pool();
    expect(await stored(logbook)).toMatchObject({
      volumeLitres: 28_500,
      details: { 'pool.surface': 'tile' },
      revision: 2,
    });
    expect(keptForm()!.fields).toEqual({ 'pool.surface': 'tile', 'pool.volumeLitres': 28_500 });
  });

  it('is written once, and again when it is changed; a blank is unknown', async () => {
    const logbook = await openedLogbook();
    await logbook.write(addPool(POOL));
    type(TOLD);
    for (let i = 0; i < 3; i++) await logbook.pool();
    expect(await stored(logbook)).toMatchObject({ volumeLitres: 27_000, details, revision: 2 });
    type({ ...TOLD, 'targets.ph.low': 7.3 });
    await logbook.pool();
    expect((await stored(logbook)).revision).toBe(2);
    type({ 'pool.volumeLitres': undefined, 'pool.surface': 'vinyl' });
    await logbook.pool();
    expect(await stored(logbook)).toMatchObject({
      volumeLitres: null,
      details: { 'pool.surface': 'vinyl' },
      revision: 3,
    });
  });

  it('waits for the next page where the tab was closed before it was written', async () => {
    const before = await openedLogbook();
    await before.write(addPool(POOL));
    type(TOLD);
    await before.pool();
    type({ ...TOLD, 'pool.surface': 'plaster' });
    expect(await (await openedLogbook()).pool()).toMatchObject({ details: { ...details, 'pool.surface': 'plaster' } });
  });

  it('takes no other pool’s place: each has its own, and the form shows the chosen one', async () => {
    const logbook = await openedLogbook();
    const spa = { ...POOL, id: 'hot-spa', volumeLitres: 1200, details: { 'pool.surface': 'fibreglass' } };
    for (const pool of [POOL, spa]) await logbook.write(addPool(pool));
    logbook.choosePool(POOL.id);
    type(TOLD);
    await logbook.pool();
    logbook.choosePool(spa.id);
    await logbook.pool();
    expect(keptForm()!.fields).toEqual({ 'pool.volumeLitres': 1200, 'pool.surface': 'fibreglass' });
    expect(await stored(logbook, spa.id)).toEqual(spa);
    // Of several pools nobody knows which one an old form told of.
    expect(await stored(logbook)).toMatchObject({ volumeLitres: 28_500, details });
  });

  it('gives way to a volume that was taken over elsewhere, with its doubt', async () => {
    const logbook = await openedLogbook();
    await logbook.write(addPool({ ...POOL, details }));
    const learnt = withVolume(await logbook.pool(), 26_400, { low: 25_600, high: 27_200 });
    await logbook.write(changePool(learnt, new Date().toISOString()).change);
    const pool = await logbook.pool();
    const span = { 'pool.volumeLowLitres': 25_600, 'pool.volumeHighLitres': 27_200 };
    expect(keptForm()!.fields).toEqual({ 'pool.volumeLitres': 26_400, ...details, ...span });
    expect(withVolume(pool, 30_000).details).toEqual(details);
  });
});

it('knows what the chlorinator makes, and the water from the tap', () => {
  const cell = { 'pool.cell.gramsPerHour': 15, 'pool.cell.setting': 0.6, 'pool.pump.hoursPerDay': 10 };
  expect(chlorineMadePerDay({ ...POOL, details: cell })).toBeCloseTo(90, 9);
  expect(chlorineMadePerDay({ ...POOL, chlorinatorGramsPerDay: 45 })).toBe(45);
  expect(chlorineMadePerDay(POOL)).toBeNull();
  expect(fillOf({ ...POOL, details })).toEqual({ 'calcium-hardness': 120 });
});
