/** The store on the device: IndexedDB, one transaction a change. */
import { type IDBPDatabase, openDB } from 'idb';
import type { Entry } from '../../core/log/schema.ts';
import { BY_POOL_AND_TIME, DATABASE, DATABASE_VERSION, type LogDatabase, upgrade } from './database.ts';
import { StoreError, toStoreError } from './failure.ts';
import { isSound, type SetAside } from './sound.ts';
import { type EntryPlace, EVER, type LogStore } from './store.ts';
import { type Change, type Expectation, type Records, type Table, TABLES } from './tables.ts';

/** Pictures are half a megabyte. */
const PIECE = 50;

export interface StoreEvents {
  /** Another tab holds an older version open and has to be closed before this one can go on. */
  readonly onBlocked: () => void;
  /** A newer program in another tab has taken over; this tab has to be loaded again. */
  readonly onTakenOver: () => void;
  /** The browser has thrown the store away under the open page; an empty one stands in its place. */
  readonly onEmptied: () => void;
}

/**
 * @throws DOMException VersionError when the device's data is newer than this program; others when the browser denies
 *   or fails
 */
export async function openIdbStore(events: StoreEvents): Promise<IdbStore> {
  const store = new IdbStore(events);
  await store.ready();
  return store;
}

export class IdbStore implements LogStore {
  readonly kind = 'kept';
  readonly #events: StoreEvents;
  #opening: Promise<IDBPDatabase<LogDatabase>> | null = null;
  #takenOver = false;
  #wasOpen = false;
  #isLookedFor = false;

  constructor(events: StoreEvents) {
    this.#events = events;
  }

  async ready(): Promise<void> {
    await this.#open();
  }

  /** Whether all tables are there, with their index. */
  async isComplete(): Promise<boolean> {
    const db = await this.#open();
    if (!TABLES.every((table) => db.objectStoreNames.contains(table))) return false;
    return db.transaction('entries').store.indexNames.contains(BY_POOL_AND_TIME);
  }

  #open(): Promise<IDBPDatabase<LogDatabase>> {
    if (this.#takenOver) return Promise.reject(new StoreError('broken'));
    let isFresh = false;
    this.#opening ??= openDB<LogDatabase>(DATABASE, DATABASE_VERSION, {
      upgrade: (db, from, _to, transaction) => {
        isFresh = from === 0;
        return upgrade(db, from, transaction);
      },
      blocked: this.#events.onBlocked,
      blocking: (_from, to, event) => {
        // Closing lets running transactions finish first. A deletion (to: null) is no newer program.
        (event.target as unknown as IDBDatabase).close();
        this.#opening = null;
        if (to === null) return this.#lookAgain();
        this.#takenOver = true;
        this.#events.onTakenOver();
      },
      terminated: () => {
        this.#opening = null;
        this.#lookAgain();
      },
    }).then(
      (db) => {
        if (isFresh && this.#wasOpen) this.#events.onEmptied();
        this.#wasOpen = true;
        return db;
      },
      (error: unknown) => {
        this.#opening = null;
        throw error;
      },
    );
    return this.#opening;
  }

  /**
   * The browser closed the store: whether it is still there shows when it is opened again. While the browser is
   * clearing up that can fail; whoever reads or writes meanwhile opens it too.
   */
  #lookAgain(times = 8): void {
    if (times === 0 || this.#isLookedFor) return;
    this.#isLookedFor = true;
    setTimeout(() => {
      this.#isLookedFor = false;
      this.#open().catch(() => this.#lookAgain(times - 1));
    }, 250);
  }

  async get<T extends Table>(table: T, id: string): Promise<Records[T] | undefined> {
    const db = await this.#open();
    const record: unknown = await db.get(table, id);
    return isSound(table, record) ? record : undefined;
  }

  async all<T extends Table>(table: T): Promise<Records[T][]> {
    const db = await this.#open();
    const records: unknown[] = await db.getAll(table);
    return records.filter((record) => isSound(table, record));
  }

  async ids(table: Table): Promise<string[]> {
    const db = await this.#open();
    return db.getAllKeys(table);
  }

  async count(table: Table): Promise<number> {
    const db = await this.#open();
    return db.count(table);
  }

  async entriesBetween(poolId: string, from: string, to: string): Promise<Entry[]> {
    const db = await this.#open();
    const range = IDBKeyRange.bound([poolId, from], [poolId, to]);
    const records: unknown[] = await db.getAllFromIndex('entries', BY_POOL_AND_TIME, range);
    return records.filter((record) => isSound('entries', record));
  }

  async countBetween(poolId: string, from: string, to: string): Promise<number> {
    const db = await this.#open();
    return db.countFromIndex('entries', BY_POOL_AND_TIME, IDBKeyRange.bound([poolId, from], [poolId, to]));
  }

  async entriesBefore(poolId: string, { time, id }: EntryPlace, most: number): Promise<Entry[]> {
    const index = (await this.#open()).transaction('entries').store.index(BY_POOL_AND_TIME);
    const range = IDBKeyRange.bound([poolId, ''], [poolId, time]);
    const found: Entry[] = [];
    let cursor = await index.openCursor(range, 'prev');
    // Those of the same time that have been seen.
    while (cursor && id !== undefined && cursor.key[1] === time && cursor.primaryKey >= id) {
      cursor = await cursor.continue();
    }
    for (; cursor && found.length < most; cursor = await cursor.continue()) {
      if (isSound('entries', cursor.value)) found.push(cursor.value);
    }
    return found;
  }

  async span(poolId: string, from = '', to = EVER): Promise<{ first: string; last: string } | null> {
    const index = (await this.#open()).transaction('entries').store.index(BY_POOL_AND_TIME);
    const range = IDBKeyRange.bound([poolId, from], [poolId, to]);
    const [first, last] = await Promise.all([index.openKeyCursor(range), index.openKeyCursor(range, 'prev')]);
    return first && last ? { first: first.key[1], last: last.key[1] } : null;
  }

  async setAside(): Promise<SetAside[]> {
    const found: SetAside[] = [];
    for (const table of TABLES) {
      let range: IDBKeyRange | undefined;
      for (;;) {
        const db = await this.#open();
        const [keys, records] = await Promise.all([
          db.getAllKeys(table, range, PIECE),
          db.getAll(table, range, PIECE) as Promise<unknown[]>,
        ]);
        found.push(...records.filter((record) => !isSound(table, record)).map((record) => ({ table, record })));
        const last = keys.at(-1);
        if (last === undefined) break;
        range = IDBKeyRange.lowerBound(last, true);
        // The page goes first.
        await new Promise((resolve) => setTimeout(resolve));
      }
    }
    return found;
  }

  async poolIds(): Promise<string[]> {
    const index = (await this.#open()).transaction('entries').store.index(BY_POOL_AND_TIME);
    const ids: string[] = [];
    let cursor = await index.openKeyCursor();
    while (cursor) {
      const [id] = cursor.key as [string, string];
      ids.push(id);
      // Past all of this pool's.
      cursor = await cursor.continue([id, []] as never);
    }
    return ids;
  }

  async write({ operations, expect = [] }: Change): Promise<void> {
    try {
      const db = await this.#open();
      const tables = [...new Set([...operations, ...expect].map(({ table }) => table))];
      const transaction = db.transaction(tables, 'readwrite', { durability: 'strict' });
      const stored = (async () => {
        await Promise.all(expect.map((expectation) => check(transaction, expectation)));
        await Promise.all(
          // Each on its own: one that fails at once must not leave the failures of the others unhandled.
          operations.map(async (operation): Promise<unknown> => {
            const store = transaction.objectStore(operation.table);
            if ('put' in operation) return store.put(operation.put);
            return 'remove' in operation ? store.delete(operation.remove) : store.clear();
          }),
        );
      })();
      stored.catch(() => abort(transaction));
      await Promise.all([stored, transaction.done]);
    } catch (error) {
      throw toStoreError(error);
    }
  }

  close(): void {
    void this.#opening?.then((db) => db.close());
    this.#opening = null;
  }
}

type Writing = ReturnType<IDBPDatabase<LogDatabase>['transaction']> & { abort(): void };

async function check(transaction: unknown, { table, id, revision }: Expectation): Promise<void> {
  const present: unknown = await (transaction as Writing).objectStore(table as never).get(id as never);
  // A sound copy may take the place of what can't be used.
  if ((isSound(table, present) ? present.revision : null) !== revision) throw new StoreError('conflict');
}

function abort(transaction: unknown): void {
  try {
    (transaction as Writing).abort();
  } catch {
    // It has failed by itself already.
  }
}
