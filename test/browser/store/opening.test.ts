/** Opening the store: over data of other versions, beside other tabs, and where the browser denies it. */
import { openDB } from 'idb';
import { readFileSync } from 'node:fs';
import { describe, expect, it, vi } from 'vitest';
import { addEntry } from '../../../src/browser/store/changes.ts';
import { BY_POOL_AND_TIME, DATABASE, DATABASE_VERSION } from '../../../src/browser/store/database.ts';
import { dumpStore, openStore } from '../../../src/browser/store/open.ts';
import { TABLES } from '../../../src/browser/store/tables.ts';
import { entrySchema, poolSchema } from '../../../src/core/log/schema.ts';
import { dayTime, reading } from '../../core/log/samples.ts';
import { emptyDevice, events, JPEG, onDevice } from './device.ts';

emptyDevice();

describe('data of other versions', () => {
  async function writeOld(version: 1 | 2 | 3): Promise<{ pools: unknown[]; entries: unknown[] }> {
    const old = JSON.parse(
      readFileSync(new URL(`../../core/log/versions/v${version}.json`, import.meta.url), 'utf8'),
    ) as {
      pools: unknown[];
      entries: { id: string }[];
    };
    const db = await openDB(DATABASE, version, {
      upgrade: (made) => {
        for (const table of TABLES) {
          const store = made.createObjectStore(table, { keyPath: 'id' });
          if (table === 'entries') store.createIndex(BY_POOL_AND_TIME, ['poolId', 'time']);
        }
      },
    });
    for (const pool of old.pools) await db.put('pools', pool);
    for (const entry of old.entries) await db.put('entries', entry);
    await db.put('bin', {
      id: 'bin-1',
      deleted: dayTime(1),
      entries: [{ ...old.entries[0], id: 'binned-1' }],
      pool: old.pools[0],
      scale: null,
    });
    await db.put('imports', {
      id: 'import-1',
      time: dayTime(1),
      fileName: 'old.json',
      added: { pools: [], entries: old.entries, scales: [], pictureIds: [] },
      replaced: { pools: [], entries: [{ before: old.entries[0], after: old.entries[0] }] },
      outOfBin: [],
    });
    db.close();
    return old;
  }

  it.each([1, 2, 3] as const)('brings a store of version %i to the present one with nothing lost', async (version) => {
    const old = await writeOld(version);
    const store = await onDevice();
    const entries = await store.all('entries');
    expect(entries).toHaveLength(old.entries.length);
    for (const entry of entries) expect(entrySchema.safeParse(entry).error).toBeUndefined();
    for (const pool of await store.all('pools')) expect(poolSchema.safeParse(pool).error).toBeUndefined();
    const [bin] = await store.all('bin');
    expect(entrySchema.safeParse(bin!.entries[0]).success).toBe(true);
    const [record] = await store.all('imports');
    expect(entrySchema.safeParse(record!.replaced.entries[0]!.before).success).toBe(true);
    expect(record!.added.entries).toHaveLength(old.entries.length);
  });

  it('leaves an older store as it was when the upgrade is interrupted', async () => {
    await writeOld(1);
    const before = await dumpStore();
    const interrupted = openDB(DATABASE, DATABASE_VERSION, {
      upgrade: async (_db, _from, _to, transaction) => {
        transaction.done.catch(() => undefined);
        await transaction.objectStore('entries').clear();
        transaction.abort();
      },
    });
    await expect(interrupted).rejects.toThrow();
    expect(await dumpStore()).toBe(before);
    const store = await onDevice();
    expect(await store.count('entries')).toBe(3);
  });

  it('leaves a newer store alone and saves it to a file as it is', async () => {
    const db = await openDB(DATABASE, DATABASE_VERSION + 1, {
      upgrade: (made) => made.createObjectStore('entries-of-tomorrow', { keyPath: 'id' }),
    });
    await db.put('entries-of-tomorrow', { id: 'one', mood: 'bright', jpeg: JPEG });
    db.close();
    const { store } = await openStore(events);
    expect(store.kind).toBe('newer');
    await expect(store.write(addEntry(reading(1, [])))).rejects.toMatchObject({ failure: 'read-only' });
    expect(JSON.parse(await dumpStore())).toEqual({
      format: 'dipwise-store',
      version: DATABASE_VERSION + 1,
      tables: { 'entries-of-tomorrow': [{ id: 'one', mood: 'bright', jpeg: '/9j/2Q==' }] },
    });
  });

  it('makes way for a newer program in another tab, and says so', async () => {
    const store = await onDevice();
    await store.write(addEntry(reading(1, [])));
    const newer = await openDB(DATABASE, DATABASE_VERSION + 1);
    expect(events.onTakenOver).toHaveBeenCalledOnce();
    await expect(store.write(addEntry(reading(2, [])))).rejects.toMatchObject({ failure: 'broken' });
    expect(await newer.count('entries')).toBe(1);
    newer.close();
  });

  it('says that an older tab is in the way, and goes on once it is closed', async () => {
    const older = await openDB(DATABASE, 1, {
      upgrade: (made) => TABLES.forEach((table) => void made.createObjectStore(table, { keyPath: 'id' })),
    });
    const opening = onDevice();
    await vi.waitFor(() => expect(events.onBlocked).toHaveBeenCalledOnce());
    older.close();
    expect(await (await opening).count('entries')).toBe(0);
  });
});

describe('what the browser may do', () => {
  it('falls back to memory where the store is denied', async () => {
    vi.spyOn(console, 'warn').mockImplementation(() => undefined);
    globalThis.indexedDB = {
      open: () => {
        throw new DOMException('denied', 'SecurityError');
      },
    } as unknown as IDBFactory;
    const { store } = await openStore(events);
    expect(store.kind).toBe('memory');
    await store.write(addEntry(reading(1, [])));
    expect(await store.count('entries')).toBe(1);
  });

  it('notices a clock that was set back', async () => {
    const store = await onDevice();
    const later = new Date(Date.now() + 86_400_000).toISOString();
    await store.write({ operations: [{ table: 'meta', put: { id: 'clock', latest: later } }] });
    expect((await openStore(events)).clockBehind).toBe(later);
  });
});
