/** The store on the device: IndexedDB, one transaction a change. */
import { type IDBPDatabase, openDB } from 'idb';
import type { Entry } from '../../core/log/schema.ts';
import { BY_POOL_AND_TIME, DATABASE, DATABASE_VERSION, type LogDatabase, upgrade } from './database.ts';
import { StoreError, toStoreError } from './failure.ts';
import type { LogStore } from './store.ts';
import type { Change, Expectation, Records, Table } from './tables.ts';

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
    return (await db.get(table, id)) as Records[T] | undefined;
  }

  async all<T extends Table>(table: T): Promise<Records[T][]> {
    const db = await this.#open();
    return (await db.getAll(table)) as Records[T][];
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
    return db.getAllFromIndex('entries', BY_POOL_AND_TIME, IDBKeyRange.bound([poolId, from], [poolId, to]));
  }

  async countBetween(poolId: string, from: string, to: string): Promise<number> {
    const db = await this.#open();
    return db.countFromIndex('entries', BY_POOL_AND_TIME, IDBKeyRange.bound([poolId, from], [poolId, to]));
  }

  async span(poolId: string, upTo = '\uffff'): Promise<{ first: string; last: string } | null> {
    const index = (await this.#open()).transaction('entries').store.index(BY_POOL_AND_TIME);
    const range = IDBKeyRange.bound([poolId, ''], [poolId, upTo]);
    const [first, last] = await Promise.all([index.openKeyCursor(range), index.openKeyCursor(range, 'prev')]);
    return first && last ? { first: first.key[1], last: last.key[1] } : null;
  }

  async write({ operations, expect = [] }: Change): Promise<void> {
    try {
      const db = await this.#open();
      const tables = [...new Set([...operations, ...expect].map(({ table }) => table))];
      const transaction = db.transaction(tables, 'readwrite', { durability: 'strict' });
      const stored = (async () => {
        for (const expectation of expect) await check(transaction, expectation);
        await Promise.all(
          operations.map((operation): Promise<unknown> => {
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
  const present = (await (transaction as Writing).objectStore(table as never).get(id as never)) as
    { revision: number } | undefined;
  if ((present?.revision ?? null) !== revision) throw new StoreError('conflict');
}

function abort(transaction: unknown): void {
  try {
    (transaction as Writing).abort();
  } catch {
    // It has failed by itself already.
  }
}
