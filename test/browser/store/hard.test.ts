/** A store that holds what it should not, lacks what it should have, or doesn't answer. */
import { IDBFactory, IDBOpenDBRequest } from 'fake-indexeddb';
import { openDB } from 'idb';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { addEntry } from '../../../src/browser/store/changes.ts';
import { BY_POOL_AND_TIME, DATABASE, DATABASE_VERSION } from '../../../src/browser/store/database.ts';
import { openStore } from '../../../src/browser/store/open.ts';
import { EVER, type LogStore } from '../../../src/browser/store/store.ts';
import { type Table, TABLES } from '../../../src/browser/store/tables.ts';
import type { Entry } from '../../../src/core/log/schema.ts';
import { dayTime, POOL, reading } from '../../core/log/samples.ts';
import { emptyDevice, events, onDevice } from './device.ts';

emptyDevice();
afterEach(() => {
  vi.restoreAllMocks();
  // Other tests may share this device.
  globalThis.indexedDB = new IDBFactory();
});

/** Past all checks, as a fault of the device or another program would. */
async function putRaw(table: Table, record: object): Promise<void> {
  const db = await openDB(DATABASE, DATABASE_VERSION);
  await db.put(table, record);
  db.close();
}

function note(rest: Partial<Extract<Entry, { kind: 'note' }>>): Entry {
  const time = dayTime(1);
  const common = { poolId: POOL.id, revision: 1, edited: time, time, zoneMinutes: 120, note: 'clear' };
  return { ...common, kind: 'note', id: 'note-1', ...rest };
}

/** All of a pool's entries, a few at a time, as the list of the page walks them. */
async function walk(store: LogStore, poolId: string, most = 3): Promise<Entry[]> {
  const found: Entry[] = [];
  for (;;) {
    const last = found.at(-1);
    const next = await store.entriesBefore(poolId, last ? { time: last.time, id: last.id } : { time: EVER }, most);
    found.push(...next);
    if (next.length < most) return found;
  }
}

describe('records that aren’t sound', () => {
  const sound = reading(1, [], { id: 'sound-1' });
  const bad: readonly (readonly [Table, Record<string, unknown> & { id: string }])[] = [
    ['entries', { ...sound, id: 'bad-values', values: null }],
    ['entries', { ...sound, id: 'bad-note', note: 7 }],
    ['entries', { id: 'bad-all', poolId: sound.poolId, time: dayTime(3) }],
    ['entries', { id: 'bad-nothing' }],
    ['pools', { id: 'bad-pool' }],
    ['pictures', { id: 'bad-picture', jpeg: 'text' }],
    ['scales', { id: 'bad-scale' }],
    ['bin', { id: 'bad-bin', deleted: dayTime(1), entries: [{}], pool: null, scale: null }],
    ['imports', { id: 'bad-import' }],
  ];

  it('hide no other, are set aside, and come out whole', async () => {
    const store = await onDevice();
    await store.write(addEntry(sound));
    for (const [table, record] of bad) await putRaw(table, record);
    expect((await store.all('entries')).map(({ id }) => id)).toEqual(['sound-1']);
    expect((await store.entriesBetween(sound.poolId, '', EVER)).map(({ id }) => id)).toEqual(['sound-1']);
    expect((await walk(store, sound.poolId)).map(({ id }) => id)).toEqual(['sound-1']);
    for (const table of ['pools', 'pictures', 'scales', 'bin', 'imports'] as const) {
      expect(await store.all(table), table).toEqual([]);
    }
    const aside = await store.setAside();
    expect(aside.map(({ record }) => record)).toEqual(expect.arrayContaining(bad.map(([, record]) => record)));
    expect(aside).toHaveLength(bad.length);
  });

  it('make way for a sound copy', async () => {
    const store = await onDevice();
    await putRaw('entries', { ...sound, values: 'gone' });
    await store.write(addEntry(sound));
    expect(await store.get('entries', 'sound-1')).toEqual(sound);
    expect(await store.setAside()).toEqual([]);
  });

  it('don’t keep an old store from opening', async () => {
    const old = await openDB(DATABASE, 1, {
      upgrade: (db) => {
        for (const table of TABLES) {
          const made = db.createObjectStore(table, { keyPath: 'id' });
          if (table === 'entries') made.createIndex(BY_POOL_AND_TIME, ['poolId', 'time']);
        }
      },
    });
    for (const [table, record] of bad) await old.put(table, record);
    old.close();
    const opened = await openStore(events);
    expect(opened.store.kind).toBe('kept');
    expect((await opened.store.setAside()).length).toBe(bad.length);
    opened.store.close();
  });
});

describe('entries walked by cursor', () => {
  it('come newest first, a few at a time, equal times included, wherever in time they lie', async () => {
    const store = await onDevice();
    const times = ['9999-12-31T00:00:00.000Z', ...[5, 4, 4, 4, 4, 4, 2].map(dayTime), '0026-01-01T00:00:00.000Z'];
    const entries = times.map((time, i) => note({ id: `entry-${i}`, time }));
    for (const entry of entries) await store.write(addEntry(entry));
    const found = await walk(store, entries[0]!.poolId);
    expect(found.map(({ time }) => time)).toEqual(times);
    expect(new Set(found.map(({ id }) => id)).size).toBe(entries.length);
  });

  it('names the pools that entries belong to', async () => {
    const store = await onDevice();
    for (const [i, poolId] of ['pool-b', 'pool-a', 'pool-b'].entries()) {
      await store.write(addEntry(note({ id: `entry-${i}`, poolId, time: dayTime(i) })));
    }
    expect(await store.poolIds()).toEqual(['pool-a', 'pool-b']);
  });
});

describe('opening', () => {
  it('gives up on a browser that doesn’t answer, and goes on for the time of the page', async () => {
    vi.spyOn(indexedDB, 'open').mockImplementation(() => new IDBOpenDBRequest());
    const { store, trouble } = await openStore(events, 20);
    expect(trouble).toBe('silent');
    expect(store.kind).toBe('memory');
    await store.write(addEntry(note({ id: 'entry-1' })));
    expect(await store.count('entries')).toBe(1);
  });

  it('tells a store that lacks a table, or its index', async () => {
    for (const lacking of ['pools', 'index'] as const) {
      globalThis.indexedDB = new IDBFactory();
      const db = await openDB(DATABASE, DATABASE_VERSION, {
        upgrade: (made) => {
          for (const table of TABLES) {
            if (table === lacking) continue;
            const store = made.createObjectStore(table, { keyPath: 'id' });
            if (table === 'entries' && lacking !== 'index') store.createIndex(BY_POOL_AND_TIME, ['poolId', 'time']);
          }
        },
      });
      db.close();
      const { store, trouble } = await openStore(events);
      expect([store.kind, trouble]).toEqual(['memory', 'incomplete']);
    }
  });
});
