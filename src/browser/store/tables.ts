/** What the store holds, table by table. Every record has its key in `id`. */
import type { Entry, Pool } from '../../core/log/schema.ts';
import type { ImportRecord } from '../../core/log/undo.ts';
import type { StripScale } from '../../core/scale/schema.ts';

export interface Picture {
  readonly id: string;
  /** A JPEG without metadata. */
  readonly jpeg: Uint8Array<ArrayBuffer>;
}

/** One act of deleting, to be taken back as one. */
export interface BinRecord {
  readonly id: string;
  readonly deleted: string;
  readonly entries: readonly Entry[];
  readonly pool: Pool | null;
  readonly scale: StripScale | null;
}

export interface Meta {
  readonly id: 'clock';
  /** The latest time at which anything was written here, ISO 8601. */
  readonly latest: string;
}

export interface Records {
  readonly pools: Pool;
  readonly entries: Entry;
  readonly pictures: Picture;
  readonly scales: StripScale;
  readonly bin: BinRecord;
  readonly imports: ImportRecord;
  readonly meta: Meta;
}

export const TABLES = ['pools', 'entries', 'pictures', 'scales', 'bin', 'imports', 'meta'] as const;
export type Table = (typeof TABLES)[number];

type Put = { [T in Table]: { readonly table: T; readonly put: Records[T] } }[Table];

export type Operation =
  | Put
  | { readonly table: Table; readonly remove: string }
  /** Everything in the table. */
  | { readonly table: Table; readonly clear: true };

/** What must still be so when the change is written, or nothing is. */
export interface Expectation {
  readonly table: 'pools' | 'entries';
  readonly id: string;
  /** null: there must be no such record. */
  readonly revision: number | null;
}

/** All of it is written, or none. */
export interface Change {
  readonly operations: readonly Operation[];
  readonly expect?: readonly Expectation[];
}
