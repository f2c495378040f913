/** Opens the logbook's store, whatever the browser allows, and says what it found. */
import { deleteDB, openDB } from 'idb';
import { LOG_MARK_KEY as MARK_KEY } from '../open-plan.ts';
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
  /** Why nothing is kept on the device, where there is a store for it. */
  readonly trouble: StoreTrouble | null;
}

/** silent: the browser doesn't answer when asked for the store. incomplete: the store lacks a part of itself. */
export type StoreTrouble = 'silent' | 'incomplete';

/** Opening takes milliseconds, on a busy phone a second. */
export const OPENING_MILLIS = 15_000;

/** A clock is set right by a few minutes now and then. */
const CLOCK_SLACK_MILLIS = 10 * 60_000;

export async function openStore(events: StoreEvents, millis = OPENING_MILLIS): Promise<Opened> {
  const { store, trouble } = await openAny(events, millis);
  if (store.kind !== 'kept') return { store, lost: null, clockBehind: null, trouble };
  const clock = await store.get('meta', 'clock');
  const behind = clock && Date.parse(clock.latest) - Date.now() > CLOCK_SLACK_MILLIS ? clock.latest : null;
  return { store, lost: await findLoss(store), clockBehind: behind, trouble };
}

async function openAny(
  events: StoreEvents,
  millis: number,
): Promise<{ store: LogStore; trouble: StoreTrouble | null }> {
  try {
    return { store: await openInTime(events, millis), trouble: null };
  } catch (error) {
    if (error instanceof DOMException && error.name === 'VersionError') {
      return { store: new MemoryStore('newer'), trouble: null };
    }
    console.warn('The logbook can’t be kept in this browser:', error);
    const trouble = error instanceof TroubledStore ? error.trouble : null;
    return { store: new MemoryStore('memory'), trouble };
  }
}

class TroubledStore extends Error {
  readonly trouble: StoreTrouble;

  constructor(trouble: StoreTrouble) {
    super(`the store is ${trouble}`);
    this.trouble = trouble;
  }
}

/** Waits for another tab as long as it takes, and says so; for the browser itself a while. */
async function openInTime(events: StoreEvents, millis: number): Promise<LogStore> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const silence = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new TroubledStore('silent')), millis);
  });
  const opening = openIdbStore({
    ...events,
    onBlocked: () => {
      clearTimeout(timer);
      events.onBlocked();
    },
  });
  try {
    const store = await Promise.race([opening, silence]);
    if (await store.isComplete()) return store;
    store.close();
    throw new TroubledStore('incomplete');
  } catch (error) {
    // What comes too late isn't held open.
    void opening.then((store) => store.close()).catch(() => undefined);
    throw error;
  } finally {
    clearTimeout(timer);
  }
}

/** Whatever it holds, for a new one to be made in its place. */
export function eraseStore(): Promise<void> {
  return deleteDB(DATABASE);
}

/** A note kept outside the store says how much was in it: a browser that clears the store may leave the note. */
export { MARK_KEY };

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
