/** What the page's logbook does about other tabs and about the clock. */
import { afterEach, describe, expect, it, vi } from 'vitest';
import { addPool, moveToBin } from '../../../src/browser/store/changes.ts';
import { Logbook } from '../../../src/browser/store/logbook.ts';
import { openStore } from '../../../src/browser/store/open.ts';
import { loggedValue, POOL, reading } from '../../core/log/samples.ts';
import { emptyDevice, events } from './device.ts';

emptyDevice();
vi.stubGlobal(
  'BroadcastChannel',
  class extends EventTarget {
    postMessage = (): void => undefined;
  },
);

const opened: Logbook[] = [];
async function openedLogbook(): Promise<Logbook> {
  const logbook = new Logbook(await openStore(events));
  opened.push(logbook);
  return logbook;
}
afterEach(() => {
  for (const { store } of opened.splice(0)) (store as { close?: () => void }).close?.();
  vi.useRealTimers();
});

describe('a pool deleted in another tab', () => {
  const entry = reading(1, [loggedValue('ph', 7.4)]);
  const binned = { id: 'deleted-1', deleted: POOL.edited, entries: [], pool: POOL, scale: null };

  it('comes back, and is named, with an entry that this tab keeps for it', async () => {
    const [here, there] = [await openedLogbook(), await openedLogbook()];
    for (const pool of [POOL, { ...POOL, id: 'plunge-pool' }]) await there.write(addPool(pool));
    await there.write(moveToBin(binned));
    await here.keepEntry(entry);
    expect((await here.pools()).map(({ id }) => id)).toContain(POOL.id);
    expect(await here.store.get('pools', POOL.id)).toBeDefined();
  });

  it('leaves no entry where nobody finds it: one under no pool has a pool to choose, and a name', async () => {
    const logbook = await openedLogbook();
    await logbook.keepEntry(entry);
    await logbook.write(moveToBin({ ...binned, pool: (await logbook.store.get('pools', POOL.id))! }));
    const pools = await logbook.pools();
    expect(pools).toMatchObject([{ id: POOL.id }]);
    expect(pools[0]!.name).not.toBe('');
    expect((await logbook.pool()).id).toBe(POOL.id);
    expect(await logbook.store.entriesBefore((await logbook.pool()).id, { time: '9' }, 9)).toEqual([entry]);
  });
});

describe('a clock that once stood in 2036', () => {
  it('is told of while it stands behind, and no more once something was written with the right one', async () => {
    vi.useFakeTimers({ toFake: ['Date'] });
    vi.setSystemTime('2036-05-01T08:00:00.000Z');
    await (await openedLogbook()).keepEntry(reading(1, []));
    vi.setSystemTime('2026-05-01T08:00:00.000Z');
    const later = await openedLogbook();
    expect(later.clockBehind).toBe('2036-05-01T08:00:00.000Z');
    await later.keepEntry(reading(2, []));
    expect((await openedLogbook()).clockBehind).toBeNull();
  });
});
