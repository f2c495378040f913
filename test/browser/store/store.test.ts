/** Both stores held to the same promises: the one on the device (on a stand-in for IndexedDB) and the one in memory. */
import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { openDB } from 'idb';
import { readFileSync } from 'node:fs';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import {
  addEntry,
  addPool,
  addReading,
  changeEntry,
  emptyBin,
  importFile,
  moveToBin,
  takeFromBin,
  undoImport,
} from '../../../src/browser/store/changes.ts';
import { BY_POOL_AND_TIME, DATABASE, DATABASE_VERSION } from '../../../src/browser/store/database.ts';
import { StoreError } from '../../../src/browser/store/failure.ts';
import { openIdbStore } from '../../../src/browser/store/idb-store.ts';
import { MemoryStore } from '../../../src/browser/store/memory-store.ts';
import { dumpStore, openStore } from '../../../src/browser/store/open.ts';
import type { LogStore } from '../../../src/browser/store/store.ts';
import { type Table, TABLES } from '../../../src/browser/store/tables.ts';
import { planMerge } from '../../../src/core/log/merge.ts';
import { readLogJson } from '../../../src/core/log/read-json.ts';
import { entrySchema, poolSchema } from '../../../src/core/log/schema.ts';
import { importRecord, planUndo } from '../../../src/core/log/undo.ts';
import { dayTime, loggedValue, POOL, reading } from '../../core/log/samples.ts';

const events = { onBlocked: vi.fn(), onTakenOver: vi.fn(), onEmptied: vi.fn() };
const open: LogStore[] = [];
const JPEG = new Uint8Array([0xff, 0xd8, 0xff, 0xd9]);

beforeEach(() => {
  globalThis.indexedDB = new IDBFactory();
  vi.clearAllMocks();
});

afterEach(() => {
  for (const store of open.splice(0)) store.close();
});

async function onDevice(): Promise<LogStore> {
  const store = await openIdbStore(events);
  open.push(store);
  return store;
}

async function contents(store: LogStore): Promise<unknown> {
  const sorted = async (table: Table) => (await store.all(table)).sort((a, b) => (a.id < b.id ? -1 : 1));
  return Object.fromEntries(await Promise.all(TABLES.map(async (table) => [table, await sorted(table)])));
}

describe.each([
  ['on the device', onDevice],
  ['in memory', () => Promise.resolve(new MemoryStore('memory'))],
])('the store %s', (_name, make) => {
  it('gives the entries of a pool between two times, in their order', async () => {
    const store = await make();
    const entries = [3, 1, 2].map((day) => reading(day, []));
    for (const entry of entries) await store.write(addEntry(entry));
    await store.write(addEntry(reading(2, [], { poolId: 'another-pool' })));
    expect(await store.entriesBetween(POOL.id, dayTime(1), dayTime(2))).toEqual([entries[1], entries[2]]);
    expect(await store.countBetween(POOL.id, dayTime(1), dayTime(2))).toBe(2);
    expect(await store.span(POOL.id)).toEqual({ first: dayTime(1), last: dayTime(3) });
    expect(await store.span('nobodys-pool')).toBeNull();
    expect(await store.count('entries')).toBe(4);
  });

  it('writes a reading and its picture together or not at all', async () => {
    const store = await make();
    const entry = reading(1, [loggedValue('ph', 7.4)], { pictureId: 'picture-1' });
    await store.write(addReading(entry, JPEG));
    expect((await store.get('pictures', 'picture-1'))?.jpeg).toEqual(JPEG);
    const before = await contents(store);
    await expect(store.write(addReading(entry, new Uint8Array([1])))).rejects.toMatchObject({ failure: 'conflict' });
    expect(await contents(store)).toEqual(before);
  });

  it('does not let one tab write over what another has changed', async () => {
    const store = await make();
    const entry = reading(1, []);
    await store.write(addEntry(entry));
    const first = changeEntry({ ...entry, note: 'by the first tab' }, dayTime(2));
    await store.write(first.change);
    const second = changeEntry({ ...entry, note: 'by the second tab' }, dayTime(3));
    await expect(store.write(second.change)).rejects.toBeInstanceOf(StoreError);
    expect(await store.get('entries', entry.id)).toMatchObject({ note: 'by the first tab', revision: 2 });
  });

  it('takes a deletion back as if it had not been', async () => {
    const store = await make();
    const entries = [reading(1, []), reading(2, [])];
    for (const entry of entries) await store.write(addEntry(entry));
    const before = await contents(store);
    const record = { id: 'bin-1', deleted: dayTime(4), entries: [entries[0]!], pool: null, scale: null };
    await store.write(moveToBin(record));
    expect(await store.count('entries')).toBe(1);
    await store.write(takeFromBin(record));
    expect(await contents(store)).toEqual(before);
  });

  it('throws away with the bin only the pictures that nothing shows', async () => {
    const store = await make();
    const [kept, gone] = [reading(1, [], { pictureId: 'picture-1' }), reading(2, [], { pictureId: 'picture-2' })];
    await store.write(addReading(kept, JPEG));
    await store.write(addReading(gone, JPEG));
    await store.write(moveToBin({ id: 'bin-1', deleted: dayTime(3), entries: [gone], pool: null, scale: null }));
    await store.write(emptyBin(await store.all('entries'), await store.ids('pictures')));
    expect(await store.ids('pictures')).toEqual(['picture-1']);
    expect(await store.count('bin')).toBe(0);
  });

  it('takes an import back as if it had not been, bin and pictures included', async () => {
    const store = await make();
    const file = readLogJson(readFileSync(new URL('../../core/log/versions/v4.json', import.meta.url), 'utf8'));
    if (!file.ok) throw new Error(file.failure);
    const [old, deleted] = file.incoming.entries;
    await store.write(addPool(file.incoming.pools[0]!));
    await store.write(addEntry(reading(1, [], { id: old!.id, edited: '2026-01-01T00:00:00.000Z' })));
    await store.write(moveToBin({ id: 'bin-1', deleted: dayTime(1), entries: [], pool: null, scale: null }));
    await store.write(addEntry(deleted!));
    await store.write(moveToBin({ id: 'bin-2', deleted: dayTime(1), entries: [deleted!], pool: null, scale: null }));
    const before = await contents(store);

    const bin = await store.all('bin');
    const plan = planMerge(
      {
        pools: await store.all('pools'),
        entries: await store.all('entries'),
        scales: [],
        choices: [],
        binned: new Set(bin.flatMap(({ entries }) => entries.map(({ id }) => id))),
        pictureIds: new Set(),
      },
      file.incoming,
    );
    expect(plan.outOfBin).toEqual([deleted!.id]);
    const about = { id: 'import-1', time: dayTime(5), fileName: 'v4.json', binned: [deleted!] };
    await store.write(importFile(plan, file.incoming.pictures, importRecord(plan, about), bin));
    expect(await store.count('entries')).toBe(file.incoming.entries.length);
    expect(await store.ids('pictures')).toEqual(['picture-0001']);

    const record = (await store.get('imports', 'import-1'))!;
    const undo = planUndo(
      { pools: await store.all('pools'), entries: await store.all('entries'), scales: [], choices: [] },
      record,
    );
    await store.write(undoImport(record, undo, 'bin-2'));
    const after = (await contents(store)) as { bin: { deleted: string }[] };
    const forgetWhen = (all: unknown) => JSON.stringify(all, (key, value: unknown) => (key === 'deleted' ? '' : value));
    expect(forgetWhen(after)).toBe(forgetWhen(before));
  });

  it('takes nothing back over what another tab has changed since it looked', async () => {
    const store = await make();
    const file = readLogJson(readFileSync(new URL('../../core/log/versions/v4.json', import.meta.url), 'utf8'));
    if (!file.ok) throw new Error(file.failure);
    const nothing = {
      pools: [],
      entries: [],
      scales: [],
      choices: [],
      binned: new Set<string>(),
      pictureIds: new Set<string>(),
    };
    const plan = planMerge(nothing, file.incoming);
    const about = { id: 'import-1', time: dayTime(5), fileName: 'v4.json', binned: [] };
    await store.write(importFile(plan, file.incoming.pictures, importRecord(plan, about), []));
    const record = (await store.get('imports', 'import-1'))!;
    const undo = planUndo(
      { pools: await store.all('pools'), entries: await store.all('entries'), scales: [], choices: [] },
      record,
    );
    const touched = { ...file.incoming.entries[0]!, note: 'Changed in another tab' };
    await store.write(changeEntry(touched, dayTime(6)).change);
    const before = await contents(store);
    await expect(store.write(undoImport(record, undo, 'bin-1'))).rejects.toMatchObject({ failure: 'conflict' });
    expect(await contents(store)).toEqual(before);
  });
});

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
