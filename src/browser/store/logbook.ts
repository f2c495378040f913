/** The page's logbook: one store, told of every change in this tab and in others. */
import { deleteDB } from 'idb';
import type { Entry, Pool, ReadingEntry } from '../../core/log/schema.ts';
import { DATABASE } from './database.ts';
import { forgetOpenPlan, markPlan, unmarkPlan } from '../open-plan.ts';
import { forget, PLAN_FORM_KEY, remember, remembered } from '../remembered.ts';
import { NOTHING_KNOWN } from '../../core/log/pool-record.ts';
import { addEntry, addPool, addReading, eraseAll, withClock } from './changes.ts';
import { MARK_KEY, type Opened, openStore } from './open.ts';
import { askToPersist } from './persistence.ts';
import { StoreError } from './failure.ts';
import type { LogStore } from './store.ts';
import { isSound } from './sound.ts';
import type { Change, Operation } from './tables.ts';

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
  readonly trouble: Opened['trouble'];
  readonly #channel: BroadcastChannel | null;
  /** Of this page's writing: a clock that once ran ahead is told of until something is written again, not for ever. */
  #latest = '';
  #asked: Promise<unknown> = Promise.resolve();

  constructor({ store, lost, clockBehind, trouble }: Opened) {
    this.store = store;
    this.lost = lost;
    this.clockBehind = clockBehind;
    this.trouble = trouble;
    this.#channel = store.kind === 'kept' && 'BroadcastChannel' in globalThis ? new BroadcastChannel(CHANNEL) : null;
    this.#channel?.addEventListener('message', () => tell('changed'));
  }

  /** Throws a StoreError when nothing was written. */
  async write(change: Change): Promise<void> {
    // What is kept must be such that a backup brings it back.
    const isUnsound = (one: Operation) => 'put' in one && !isSound(one.table, one.put);
    if (change.operations.some(isUnsound)) throw new StoreError('unsound');
    const now = new Date().toISOString();
    if (now > this.#latest) this.#latest = now;
    await this.store.write(withClock(change, this.#latest));
    await this.written(change.operations);
  }

  /** Something was written into the store, here or beside the page. @param operations those with plans at least */
  async written(operations: readonly Operation[]): Promise<void> {
    await this.#mark(new Date().toISOString());
    if (this.store.kind === 'kept') noteOpenPlan(operations);
    this.announce();
  }

  /** Something that the logbook's pages show has changed. */
  announce(): void {
    this.#channel?.postMessage('changed');
    tell('changed');
  }

  /** Keeps a reading with its picture, and asks the browser to hold on to the store from the first one on. */
  async keepReading(entry: ReadingEntry, jpeg: Uint8Array<ArrayBuffer> | null): Promise<void> {
    await this.writeFor(entry.poolId, addReading(entry, jpeg));
    if (this.store.kind === 'kept') await askToPersist();
  }

  async keepEntry(entry: Entry): Promise<void> {
    await this.writeFor(entry.poolId, addEntry(entry));
  }

  /** The first entry of a logbook brings its pool along, and one for a pool that was deleted in another tab brings it back. */
  async writeFor(poolId: string, change: Change): Promise<void> {
    if ((await this.store.get('pools', poolId)) !== undefined) return this.write(change);
    const chosen = await this.pool();
    const { operations, expect = [] } = addPool(chosen.id === poolId ? chosen : standIn(poolId));
    const both = {
      operations: [...operations, ...change.operations],
      expect: [...expect, ...(change.expect ?? [])],
    };
    // Another tab may have begun the logbook in this moment.
    await this.write(both).catch(() => this.write(change));
  }

  /** All pools, and one for entries whose pool is no more: what was written down is always to be found. */
  async pools(): Promise<Pool[]> {
    const [pools, named] = await Promise.all([this.store.all('pools'), this.store.poolIds()]);
    const known = new Set(pools.map(({ id }) => id));
    const lost = named.filter((id) => !known.has(id)).map(standIn);
    return [...pools.sort((a, b) => a.name.localeCompare(b.name) || (a.id < b.id ? -1 : 1)), ...lost];
  }

  /**
   * The pool that was chosen last; before there is any, the one that the first entry will bring along. What the plan's
   * form was told of it meanwhile is written into it, and the form has what is known of it from now on.
   */
  pool(): Promise<Pool> {
    // One after the other: what one of them writes the next one finds.
    this.#asked = this.#asked.catch(() => undefined).then(() => this.#poolNow());
    return this.#asked as Promise<Pool>;
  }

  async #poolNow(): Promise<Pool> {
    const pools = await this.pools();
    const pool = pools.find(({ id }) => id === remembered(POOL_KEY)) ?? pools[0];
    if (!pool && remembered(PLAN_FORM_KEY) === null) return firstPool();
    const form = await import('./pool-in-form.ts').catch(() => null);
    // What couldn't be fetched mustn't keep a reading from being kept.
    if (!form) return pool ?? firstPool();
    return form.withTyped(pool ?? null, firstPool, pools.length === 1, (change) => this.write(change));
  }

  choosePool(id: string): void {
    remember(POOL_KEY, id);
  }

  /** Everything the visitor ever kept here. There is no undo. */
  async erase(): Promise<void> {
    if (this.store.kind === 'newer') await deleteDB(DATABASE);
    else await this.store.write(eraseAll());
    forget(MARK_KEY);
    forgetOpenPlan();
    (await import('./pool-in-form.ts')).forgetPool();
    this.#latest = '';
    this.announce();
  }

  async #mark(last: string): Promise<void> {
    if (this.store.kind !== 'kept') return;
    remember(MARK_KEY, JSON.stringify({ entries: await this.store.count('entries'), last }));
  }
}

function noteOpenPlan(operations: readonly Operation[]): void {
  for (const operation of operations) {
    if (operation.table !== 'entries') continue;
    if ('put' in operation && operation.put.kind === 'plan') markPlan(operation.put);
    if ('remove' in operation) unmarkPlan(operation.remove);
  }
}

function firstPool(): Pool {
  return { ...standIn(FIRST_POOL_ID), name: 'My pool' };
}

function standIn(id: string): Pool {
  return {
    id,
    name: 'A pool without a name',
    revision: 1,
    edited: new Date().toISOString(),
    ...NOTHING_KNOWN,
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
