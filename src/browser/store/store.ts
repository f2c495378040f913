/** What a logbook needs of a store; one keeps on the device, one only in memory. */
import type { Entry } from '../../core/log/schema.ts';
import type { SetAside } from './sound.ts';
import type { Change, Records, Table } from './tables.ts';

/** Where the order of entries, newest first, goes on: `id` is left out where no entry has been seen yet. */
export interface EntryPlace {
  readonly time: string;
  readonly id?: string;
}

/** After every time that could be written. */
export const EVER = '\uffff';

/** Whatever is read was checked: what isn't sound is left where it is, and isn't among the answers. */
export interface LogStore {
  /**
   * kept: on this device. memory: gone with the page. newer: the device holds data of a later program, which is left
   * alone.
   */
  readonly kind: 'kept' | 'memory' | 'newer';
  get<T extends Table>(table: T, id: string): Promise<Records[T] | undefined>;
  all<T extends Table>(table: T): Promise<Records[T][]>;
  ids(table: Table): Promise<string[]>;
  count(table: Table): Promise<number>;
  /** In the order of time; both ends included. */
  entriesBetween(poolId: string, from: string, to: string): Promise<Entry[]>;
  /**
   * The newest of a pool's entries, newest first, wherever in time they lie.
   * @param before only entries that come after this one in that order, or at most at this time
   */
  entriesBefore(poolId: string, before: EntryPlace, most: number): Promise<Entry[]>;
  countBetween(poolId: string, from: string, to: string): Promise<number>;
  /** Times of the first and the last entry between two times; both ends included. */
  span(poolId: string, from?: string, to?: string): Promise<{ readonly first: string; readonly last: string } | null>;
  /** Walks through all that is kept, a piece at a time. @returns what can't be used */
  setAside(): Promise<SetAside[]>;
  /** The pools that entries say they belong to. */
  poolIds(): Promise<string[]>;
  /** One transaction. Throws a StoreError when it failed, and then nothing was written. */
  write(change: Change): Promise<void>;
  close(): void;
}
