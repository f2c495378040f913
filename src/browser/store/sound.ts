/** Whether what lies in the store is what its table holds: a fault of the device, or another program, may have been there. */
import { entrySchema, poolSchema } from '../../core/log/schema.ts';
import type { Records, Table } from './tables.ts';

type Raw = Readonly<Record<string, unknown>>;

/** A record that can't be used, as it lies there. */
export interface SetAside {
  readonly table: Table;
  readonly record: unknown;
}

const CHECKS: Record<Table, (record: Raw) => boolean> = {
  pools: isPool,
  entries: isEntry,
  pictures: ({ jpeg }) => jpeg instanceof Uint8Array,
  // Whoever reads with a scale checks all of it.
  scales: ({ name, pads }) => typeof name === 'string' && isListOf(pads, isRaw),
  bin: ({ deleted, entries, pool, scale }) =>
    isTime(deleted) && isListOf(entries, isEntry) && isNullOr(pool, isPool) && isNullOr(scale, isRaw),
  imports: ({ time, fileName, added, replaced, choices, outOfBin }) =>
    isTime(time) &&
    typeof fileName === 'string' &&
    holdsLists(added, ['pools', 'entries', 'scales', 'pictureIds']) &&
    holdsLists(replaced, ['pools', 'entries']) &&
    holdsLists(choices, ['add', 'replace']) &&
    isListOf(outOfBin, isRaw),
  meta: ({ latest }) => isTime(latest),
};

export function isSound<T extends Table>(table: T, record: unknown): record is Records[T] {
  return isRaw(record) && typeof record['id'] === 'string' && CHECKS[table](record);
}

function isEntry(record: unknown): boolean {
  return entrySchema.safeParse(record).success;
}

function isPool(record: unknown): boolean {
  return poolSchema.safeParse(record).success;
}

function isTime(value: unknown): boolean {
  return typeof value === 'string' && !Number.isNaN(Date.parse(value));
}

function isRaw(value: unknown): value is Raw {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function isListOf(value: unknown, isOne: (item: unknown) => boolean): boolean {
  return Array.isArray(value) && value.every(isOne);
}

function isNullOr(value: unknown, isOne: (item: unknown) => boolean): boolean {
  return value === null || isOne(value);
}

function holdsLists(value: unknown, names: readonly string[]): boolean {
  return isRaw(value) && names.every((name) => Array.isArray(value[name]));
}
