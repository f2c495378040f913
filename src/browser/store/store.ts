/** What a logbook needs of a store; one keeps on the device, one only in memory. */
import type { Entry } from '../../core/log/schema.ts';
import type { Change, Records, Table } from './tables.ts';

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
  countBetween(poolId: string, from: string, to: string): Promise<number>;
  /** Times of the first and the last entry. */
  span(poolId: string, upTo?: string): Promise<{ readonly first: string; readonly last: string } | null>;
  /** One transaction. Throws a StoreError when it failed, and then nothing was written. */
  write(change: Change): Promise<void>;
  close(): void;
}
