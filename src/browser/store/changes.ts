/** Every way in which the logbook changes, as one change each: all of it is written, or none. */
import type { FilePicture } from '../../core/log/incoming.ts';
import type { MergePlan } from '../../core/log/merge.ts';
import type { Entry, PlanEntry, Pool, ReadingEntry } from '../../core/log/schema.ts';
import type { ImportRecord, UndoPlan } from '../../core/log/undo.ts';
import type { StripScale } from '../../core/scale/schema.ts';
import { jpegFromBase64 } from './base64.ts';
import { type BinRecord, type Change, type Expectation, type Operation, type Picture, TABLES } from './tables.ts';

export function addEntry(entry: Entry): Change {
  return {
    operations: [{ table: 'entries', put: entry }],
    expect: [{ table: 'entries', id: entry.id, revision: null }],
  };
}

/** A reading never stands without its picture, nor a picture without its reading. */
export function addReading(entry: ReadingEntry, jpeg: Uint8Array<ArrayBuffer> | null): Change {
  const { operations, expect } = addEntry(entry) as Required<Change>;
  if (!jpeg || entry.pictureId === null) return { operations, expect };
  return { operations: [...operations, { table: 'pictures', put: { id: entry.pictureId, jpeg } }], expect };
}

/** @param entry the changed entry; its revision is raised here */
export function changeEntry<T extends Entry>(entry: T, now: string): { change: Change; entry: T } {
  const after = { ...entry, revision: entry.revision + 1, edited: now };
  const expect = [{ table: 'entries' as const, id: entry.id, revision: entry.revision }];
  return { change: { operations: [{ table: 'entries', put: after }], expect }, entry: after };
}

/**
 * A kept plan goes on: with the entries that tell what was done, or without the one that is taken back. Whoever writes
 * from an older state of the plan, another tab perhaps, writes nothing.
 * @param before as it lies in the store; null for a plan that is kept now
 */
export function changePlan(
  before: PlanEntry | null,
  after: PlanEntry,
  { written = [], binned = null }: { written?: readonly Entry[]; binned?: BinRecord | null },
  now: string,
): { change: Change; plan: PlanEntry } {
  const plan = { ...after, revision: before ? before.revision + 1 : 1, edited: now };
  const added = written.map(addEntry);
  const away = binned ? moveToBin(binned) : { operations: [] };
  return {
    plan,
    change: {
      operations: [{ table: 'entries', put: plan }, ...[...added, away].flatMap(({ operations }) => operations)],
      expect: [
        { table: 'entries', id: plan.id, revision: before?.revision ?? null },
        ...[...added, away].flatMap(({ expect = [] }) => expect),
      ],
    },
  };
}

export function addPool(pool: Pool): Change {
  return { operations: [{ table: 'pools', put: pool }], expect: [{ table: 'pools', id: pool.id, revision: null }] };
}

export function changePool(pool: Pool, now: string): { change: Change; pool: Pool } {
  const after = { ...pool, revision: pool.revision + 1, edited: now };
  const expect = [{ table: 'pools' as const, id: pool.id, revision: pool.revision }];
  return { change: { operations: [{ table: 'pools', put: after }], expect }, pool: after };
}

/** What is deleted lies in the bin, pictures stay where they are. */
export function moveToBin(record: BinRecord): Change {
  const { entries, pool, scale } = record;
  return {
    operations: [
      { table: 'bin', put: record },
      ...entries.map(({ id }): Operation => ({ table: 'entries', remove: id })),
      ...(pool ? [{ table: 'pools', remove: pool.id } as const] : []),
      ...(scale ? [{ table: 'scales', remove: scale.id } as const] : []),
    ],
    expect: entries.map(({ id, revision }) => ({ table: 'entries', id, revision })),
  };
}

export function takeFromBin({ id, entries, pool, scale }: BinRecord): Change {
  return {
    operations: [
      { table: 'bin', remove: id },
      ...entries.map((entry): Operation => ({ table: 'entries', put: entry })),
      ...(pool ? [{ table: 'pools', put: pool } as const] : []),
      ...(scale ? [{ table: 'scales', put: scale } as const] : []),
    ],
    // What came back another way in the meantime isn't overwritten.
    expect: entries.map((entry) => ({ table: 'entries', id: entry.id, revision: null })),
  };
}

/** @param pictureIds of all pictures; those that nothing shows any more go too */
export function emptyBin(entries: readonly Entry[], pictureIds: readonly string[]): Change {
  const shown = new Set(entries.map(pictureOf));
  return {
    operations: [
      { table: 'bin', clear: true },
      ...pictureIds.filter((id) => !shown.has(id)).map((id): Operation => ({ table: 'pictures', remove: id })),
    ],
  };
}

export function importFile(
  plan: MergePlan,
  pictures: readonly FilePicture[],
  record: ImportRecord,
  binned: readonly BinRecord[],
): Change {
  const { pools, entries, scales, pictureIds, outOfBin } = plan;
  const wanted = new Set(pictureIds);
  const put = [...entries.add, ...entries.replace.map(({ after }) => after)];
  return {
    operations: [
      ...[...pools.add, ...pools.replace.map(({ after }) => after)].map((pool): Operation => ({
        table: 'pools',
        put: pool,
      })),
      ...put.map((entry): Operation => ({ table: 'entries', put: entry })),
      ...scales.add.map((scale): Operation => ({ table: 'scales', put: scale })),
      ...pictures.filter(({ id }) => wanted.has(id)).flatMap(toPicture),
      ...withoutFromBin(binned, new Set(outOfBin)),
      { table: 'imports', put: record },
    ],
    expect: [
      ...entries.add.map(({ id }) => ({ table: 'entries' as const, id, revision: null })),
      ...entries.replace.map(({ before }) => ({ table: 'entries' as const, id: before.id, revision: before.revision })),
      ...pools.add.map(({ id }) => ({ table: 'pools' as const, id, revision: null })),
      ...pools.replace.map(({ before }) => ({ table: 'pools' as const, id: before.id, revision: before.revision })),
    ],
  };
}

/** A file's picture that isn't a whole JPEG isn't kept: there is no telling what it holds. */
function toPicture({ id, base64 }: FilePicture): Operation[] {
  const jpeg = jpegFromBase64(base64);
  return jpeg ? [{ table: 'pictures', put: { id, jpeg } satisfies Picture }] : [];
}

function withoutFromBin(binned: readonly BinRecord[], ids: ReadonlySet<string>): Operation[] {
  return binned
    .filter(({ entries }) => entries.some(({ id }) => ids.has(id)))
    .map((record): Operation => {
      const entries = record.entries.filter(({ id }) => !ids.has(id));
      return entries.length > 0 || record.pool || record.scale
        ? { table: 'bin', put: { ...record, entries } }
        : { table: 'bin', remove: record.id };
    });
}

/**
 * @param undo as planned from what is there now: whatever another tab changes after that stops it
 * @param binId for what the import had taken out of the bin
 */
export function undoImport(record: ImportRecord, undo: UndoPlan, binId: string): Change {
  const { removeEntries, removePools, removeScales, removePictures, putEntries, putPools, putInBin } = undo;
  const { added, replaced } = record;
  const bin = { id: binId, deleted: record.time, entries: putInBin, pool: null, scale: null };
  return {
    operations: [
      ...removeEntries.map((id): Operation => ({ table: 'entries', remove: id })),
      ...removePools.map((id): Operation => ({ table: 'pools', remove: id })),
      ...removeScales.map((id): Operation => ({ table: 'scales', remove: id })),
      ...removePictures.map((id): Operation => ({ table: 'pictures', remove: id })),
      ...putEntries.map((entry): Operation => ({ table: 'entries', put: entry })),
      ...putPools.map((pool): Operation => ({ table: 'pools', put: pool })),
      ...(putInBin.length > 0 ? [{ table: 'bin', put: bin } as const] : []),
      { table: 'imports', remove: record.id },
    ],
    expect: [
      ...asImported('entries', added.entries, removeEntries),
      ...asImported('pools', added.pools, removePools),
      ...asImported(
        'entries',
        replaced.entries.map(({ after }) => after),
        putEntries.map(({ id }) => id),
      ),
      ...asImported(
        'pools',
        replaced.pools.map(({ after }) => after),
        putPools.map(({ id }) => id),
      ),
    ],
  };
}

function asImported(
  table: Expectation['table'],
  items: readonly { readonly id: string; readonly revision: number }[],
  ids: readonly string[],
): Expectation[] {
  const wanted = new Set(ids);
  return items.filter(({ id }) => wanted.has(id)).map(({ id, revision }) => ({ table, id, revision }));
}

export function putScale(scale: StripScale): Change {
  return { operations: [{ table: 'scales', put: scale }] };
}

/** With the time of writing beside it. @param latest ISO 8601 */
export function withClock(change: Change, latest: string): Change {
  return { ...change, operations: [...change.operations, { table: 'meta', put: { id: 'clock', latest } }] };
}

export function eraseAll(): Change {
  return { operations: TABLES.map((table): Operation => ({ table, clear: true })) };
}

function pictureOf(entry: Entry): string | null {
  return entry.kind === 'reading' ? entry.pictureId : null;
}
