/**
 * Where the browser keeps nothing: the same store for as long as the page is open. Where the device holds data of a
 * later program: empty, and takes nothing.
 */
import { type Entry, newestFirst } from '../../core/log/schema.ts';
import { StoreError } from './failure.ts';
import { type EntryPlace, EVER, type LogStore } from './store.ts';
import { type Change, type Records, type Table, TABLES } from './tables.ts';

type Maps = Record<Table, Map<string, Records[Table]>>;

export class MemoryStore implements LogStore {
  readonly kind: 'memory' | 'newer';
  readonly #tables = Object.fromEntries(TABLES.map((table) => [table, new Map()])) as Maps;

  constructor(kind: 'memory' | 'newer') {
    this.kind = kind;
  }

  get<T extends Table>(table: T, id: string): Promise<Records[T] | undefined> {
    return Promise.resolve(this.#tables[table].get(id) as Records[T] | undefined);
  }

  all<T extends Table>(table: T): Promise<Records[T][]> {
    return Promise.resolve([...this.#tables[table].values()] as Records[T][]);
  }

  ids(table: Table): Promise<string[]> {
    return Promise.resolve([...this.#tables[table].keys()]);
  }

  async entriesBetween(poolId: string, from: string, to: string): Promise<Entry[]> {
    const entries = await this.all('entries');
    return entries
      .filter((entry) => entry.poolId === poolId && entry.time >= from && entry.time <= to)
      .sort((a, b) => (a.time < b.time ? -1 : a.time > b.time ? 1 : 0));
  }

  async countBetween(poolId: string, from: string, to: string): Promise<number> {
    return (await this.entriesBetween(poolId, from, to)).length;
  }

  async entriesBefore(poolId: string, { time, id }: EntryPlace, most: number): Promise<Entry[]> {
    const entries = await this.entriesBetween(poolId, '', time);
    return entries
      .filter((entry) => id === undefined || entry.time < time || entry.id < id)
      .sort(newestFirst)
      .slice(0, most);
  }

  async span(poolId: string, from = '', to = EVER): Promise<{ first: string; last: string } | null> {
    const entries = await this.entriesBetween(poolId, from, to);
    return entries.length === 0 ? null : { first: entries[0]!.time, last: entries.at(-1)!.time };
  }

  setAside(): Promise<[]> {
    return Promise.resolve([]);
  }

  async poolIds(): Promise<string[]> {
    return [...new Set((await this.all('entries')).map(({ poolId }) => poolId))];
  }

  count(table: Table): Promise<number> {
    return Promise.resolve(this.#tables[table].size);
  }

  write({ operations, expect = [] }: Change): Promise<void> {
    if (this.kind === 'newer') return Promise.reject(new StoreError('read-only'));
    for (const { table, id, revision } of expect) {
      const present = this.#tables[table].get(id) as Records['pools'] | undefined;
      if ((present?.revision ?? null) !== revision) return Promise.reject(new StoreError('conflict'));
    }
    for (const operation of operations) {
      const table = this.#tables[operation.table];
      if ('put' in operation) table.set(operation.put.id, operation.put);
      else if ('remove' in operation) table.delete(operation.remove);
      else table.clear();
    }
    return Promise.resolve();
  }

  close(): void {
    // There is nothing to close.
  }
}
