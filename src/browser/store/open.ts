/** Opens the logbook's store, whatever the browser allows, and says what it found. */
import { openDB } from 'idb';
import { remembered } from '../remembered.ts';
import { toBase64 } from './base64.ts';
import { DATABASE } from './database.ts';
import { openIdbStore, type StoreEvents } from './idb-store.ts';
import { MemoryStore } from './memory-store.ts';
import type { LogStore } from './store.ts';

export interface Opened {
  readonly store: LogStore;
  /** There were entries here, and the browser has cleared them away. */
  readonly lost: { readonly entries: number; readonly last: string } | null;
  /** The device's clock stands before the last time anything was written: ISO 8601. */
  readonly clockBehind: string | null;
}

/** A clock is set right by a few minutes now and then. */
const CLOCK_SLACK_MILLIS = 10 * 60_000;

export async function openStore(events: StoreEvents): Promise<Opened> {
  const store = await openAny(events);
  if (store.kind !== 'kept') return { store, lost: null, clockBehind: null };
  const clock = await store.get('meta', 'clock');
  const behind = clock && Date.parse(clock.latest) - Date.now() > CLOCK_SLACK_MILLIS ? clock.latest : null;
  return { store, lost: await findLoss(store), clockBehind: behind };
}

async function openAny(events: StoreEvents): Promise<LogStore> {
  try {
    return await openIdbStore(events);
  } catch (error) {
    if (error instanceof DOMException && error.name === 'VersionError') return new MemoryStore('newer');
    console.warn('The logbook can’t be kept in this browser:', error);
    return new MemoryStore('memory');
  }
}

/** Beside the store stands a note of how much was in it; a browser that clears the one may leave the other. */
export const MARK_KEY = 'log-mark';

async function findLoss(store: LogStore): Promise<Opened['lost']> {
  try {
    const mark = JSON.parse(remembered(MARK_KEY) ?? 'null') as { entries?: unknown; last?: unknown } | null;
    if (typeof mark?.entries !== 'number' || typeof mark.last !== 'string' || mark.entries === 0) return null;
    const left = (await store.count('entries')) + (await store.count('bin'));
    return left === 0 ? { entries: mark.entries, last: mark.last } : null;
  } catch {
    return null;
  }
}

/**
 * All that a later program's store holds, as JSON text, whatever its tables are: bytes as base64.
 * For saving to a file, so that nobody is locked out of their own log.
 */
export async function dumpStore(): Promise<string> {
  const db = await openDB(DATABASE);
  try {
    const tables = [...db.objectStoreNames];
    const contents = await Promise.all(tables.map((table) => db.getAll(table)));
    const all = Object.fromEntries(tables.map((table, i) => [table, contents[i]]));
    return JSON.stringify({ format: 'dipwise-store', version: db.version, tables: all }, (_key, value: unknown) =>
      value instanceof Uint8Array ? toBase64(value) : value,
    );
  } finally {
    db.close();
  }
}
