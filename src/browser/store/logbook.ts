/** The page's logbook: one store, told of every change in this tab and in others. */
import { deleteDB } from 'idb';
import type { Entry, Pool, ReadingEntry } from '../../core/log/schema.ts';
import { DATABASE } from './database.ts';
import { forget, remember, remembered } from '../remembered.ts';
import { addEntry, addPool, addReading, eraseAll } from './changes.ts';
import { MARK_KEY, type Opened, openStore } from './open.ts';
import { askToPersist } from './persistence.ts';
import type { LogStore } from './store.ts';
import type { Change } from './tables.ts';

export type LogbookNews =
  /** Something was written, here or in another tab. */
  | 'changed'
  /** Another tab with an older program must be closed first. */
  | 'blocked'
  /** The browser has thrown away what was kept, under the open page. */
  | 'emptied'
  /** A newer program has taken over; this page must be loaded again. */
  | 'taken-over';

/** Also the id: two tabs that begin a logbook at once begin the same one. */
const FIRST_POOL_ID = 'first-pool';
const POOL_KEY = 'log-pool';
const CHANNEL = 'dipwise-log';

export class Logbook {
  readonly store: LogStore;
  readonly lost: Opened['lost'];
  readonly clockBehind: Opened['clockBehind'];
  readonly #channel: BroadcastChannel | null;
  #latest: string;

  constructor({ store, lost, clockBehind }: Opened) {
    this.store = store;
    this.lost = lost;
    this.clockBehind = clockBehind;
    this.#latest = clockBehind ?? '';
    this.#channel = store.kind === 'kept' && 'BroadcastChannel' in globalThis ? new BroadcastChannel(CHANNEL) : null;
    this.#channel?.addEventListener('message', () => tell('changed'));
  }

  /** Throws a StoreError when nothing was written. */
  async write(change: Change): Promise<void> {
    const now = new Date().toISOString();
    if (now > this.#latest) this.#latest = now;
    const clock = { table: 'meta', put: { id: 'clock', latest: this.#latest } } as const;
    await this.store.write({ ...change, operations: [...change.operations, clock] });
    await this.#mark(now);
    this.announce();
  }

  /** Something that the logbook's pages show has changed. */
  announce(): void {
    this.#channel?.postMessage('changed');
    tell('changed');
  }

  /** Keeps a reading with its picture, and asks the browser to hold on to the store from the first one on. */
  async keepReading(entry: ReadingEntry, jpeg: Uint8Array<ArrayBuffer> | null): Promise<void> {
    await this.#writeWithPool(entry, addReading(entry, jpeg));
    if (this.store.kind === 'kept') await askToPersist();
  }

  async keepEntry(entry: Entry): Promise<void> {
    await this.#writeWithPool(entry, addEntry(entry));
  }

  /** The first entry of a logbook brings its pool along. */
  async #writeWithPool({ poolId }: Entry, change: Change): Promise<void> {
    const pool = await this.pool();
    const isNew = pool.id === poolId && (await this.store.get('pools', poolId)) === undefined;
    if (!isNew) return this.write(change);
    const { operations, expect = [] } = addPool(pool);
    const both = {
      operations: [...operations, ...change.operations],
      expect: [...expect, ...(change.expect ?? [])],
    };
    // Another tab may have begun the logbook in this moment.
    await this.write(both).catch(() => this.write(change));
  }

  async pools(): Promise<Pool[]> {
    const pools = await this.store.all('pools');
    return pools.sort((a, b) => a.name.localeCompare(b.name) || (a.id < b.id ? -1 : 1));
  }

  /** The pool that was chosen last; before there is any, the one that the first entry will bring along. */
  async pool(): Promise<Pool> {
    const pools = await this.pools();
    return pools.find(({ id }) => id === remembered(POOL_KEY)) ?? pools[0] ?? firstPool();
  }

  choosePool(id: string): void {
    remember(POOL_KEY, id);
  }

  /** Everything the visitor ever kept here. There is no undo. */
  async erase(): Promise<void> {
    if (this.store.kind === 'newer') await deleteDB(DATABASE);
    else await this.store.write(eraseAll());
    forget(MARK_KEY);
    this.#latest = '';
    this.announce();
  }

  async #mark(last: string): Promise<void> {
    if (this.store.kind !== 'kept') return;
    remember(MARK_KEY, JSON.stringify({ entries: await this.store.count('entries'), last }));
  }
}

function firstPool(): Pool {
  return {
    id: FIRST_POOL_ID,
    name: 'My pool',
    revision: 1,
    edited: new Date().toISOString(),
    volumeLitres: null,
    chlorinatorGramsPerDay: null,
  };
}

const listeners = new Set<(news: LogbookNews) => void>();

/** May be called before the logbook is open: that it is blocked is told only then. */
export function onLogbookNews(listener: (news: LogbookNews) => void): void {
  listeners.add(listener);
}

function tell(news: LogbookNews): void {
  for (const listener of listeners) listener(news);
}

/** Whether the browser has thrown away what was kept since the page was opened. */
export function wasEmptied(): boolean {
  return isEmptied;
}

let isEmptied = false;
let opening: Promise<Logbook> | null = null;

/** The same logbook for everything on the page. */
export function openLogbook(): Promise<Logbook> {
  opening ??= openStore({
    onBlocked: () => tell('blocked'),
    onTakenOver: () => tell('taken-over'),
    onEmptied: () => {
      isEmptied = true;
      tell('emptied');
    },
  }).then((opened) => new Logbook(opened));
  return opening;
}
