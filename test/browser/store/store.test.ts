/** Both stores held to the same promises: the one on the device and the one in memory. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  addEntry,
  addPool,
  addReading,
  changeEntry,
  emptyBin,
  importFile,
  moveToBin,
  takeFromBin,
  undoImport,
} from '../../../src/browser/store/changes.ts';
import { StoreError } from '../../../src/browser/store/failure.ts';
import { MemoryStore } from '../../../src/browser/store/memory-store.ts';
import type { LogStore } from '../../../src/browser/store/store.ts';
import { type Table, TABLES } from '../../../src/browser/store/tables.ts';
import { planMerge } from '../../../src/core/log/merge.ts';
import { readLogJson } from '../../../src/core/log/read-json.ts';
import { importRecord, planUndo } from '../../../src/core/log/undo.ts';
import { dayTime, loggedValue, POOL, reading } from '../../core/log/samples.ts';
import { emptyDevice, JPEG, onDevice } from './device.ts';

emptyDevice();

async function contents(store: LogStore): Promise<unknown> {
  const sorted = async (table: Table) => (await store.all(table)).sort((a, b) => (a.id < b.id ? -1 : 1));
  return Object.fromEntries(await Promise.all(TABLES.map(async (table) => [table, await sorted(table)])));
}

describe.each([
  ['on the device', onDevice],
  ['in memory', () => Promise.resolve(new MemoryStore('memory'))],
])('the store %s', (_name, make) => {
  it('gives the entries of a pool between two times, in their order', async () => {
    const store = await make();
    const entries = [3, 1, 2].map((day) => reading(day, []));
    for (const entry of entries) await store.write(addEntry(entry));
    await store.write(addEntry(reading(2, [], { poolId: 'another-pool' })));
    expect(await store.entriesBetween(POOL.id, dayTime(1), dayTime(2))).toEqual([entries[1], entries[2]]);
    expect(await store.countBetween(POOL.id, dayTime(1), dayTime(2))).toBe(2);
    expect(await store.span(POOL.id)).toEqual({ first: dayTime(1), last: dayTime(3) });
    expect(await store.span('nobodys-pool')).toBeNull();
    expect(await store.count('entries')).toBe(4);
  });

  it('writes a reading and its picture together or not at all', async () => {
    const store = await make();
    const entry = reading(1, [loggedValue('ph', 7.4)], { pictureId: 'picture-1' });
    await store.write(addReading(entry, JPEG));
    expect((await store.get('pictures', 'picture-1'))?.jpeg).toEqual(JPEG);
    const before = await contents(store);
    await expect(store.write(addReading(entry, new Uint8Array([1])))).rejects.toMatchObject({ failure: 'conflict' });
    expect(await contents(store)).toEqual(before);
  });

  it('does not let one tab write over what another has changed', async () => {
    const store = await make();
    const entry = reading(1, []);
    await store.write(addEntry(entry));
    const first = changeEntry({ ...entry, note: 'by the first tab' }, dayTime(2));
    await store.write(first.change);
    const second = changeEntry({ ...entry, note: 'by the second tab' }, dayTime(3));
    await expect(store.write(second.change)).rejects.toBeInstanceOf(StoreError);
    expect(await store.get('entries', entry.id)).toMatchObject({ note: 'by the first tab', revision: 2 });
  });

  it('takes a deletion back as if it had not been', async () => {
    const store = await make();
    const entries = [reading(1, []), reading(2, [])];
    for (const entry of entries) await store.write(addEntry(entry));
    const before = await contents(store);
    const record = { id: 'bin-1', deleted: dayTime(4), entries: [entries[0]!], pool: null, scale: null };
    await store.write(moveToBin(record));
    expect(await store.count('entries')).toBe(1);
    await store.write(takeFromBin(record));
    expect(await contents(store)).toEqual(before);
  });

  it('throws away with the bin only the pictures that nothing shows', async () => {
    const store = await make();
    const [kept, gone] = [reading(1, [], { pictureId: 'picture-1' }), reading(2, [], { pictureId: 'picture-2' })];
    await store.write(addReading(kept, JPEG));
    await store.write(addReading(gone, JPEG));
    await store.write(moveToBin({ id: 'bin-1', deleted: dayTime(3), entries: [gone], pool: null, scale: null }));
    await store.write(emptyBin(await store.all('entries'), await store.ids('pictures')));
    expect(await store.ids('pictures')).toEqual(['picture-1']);
    expect(await store.count('bin')).toBe(0);
  });

  it('takes an import back as if it had not been, bin and pictures included', async () => {
    const store = await make();
    const file = readLogJson(readFileSync(new URL('../../core/log/versions/v4.json', import.meta.url), 'utf8'));
    if (!file.ok) throw new Error(file.failure);
    const [old, deleted] = file.incoming.entries;
    await store.write(addPool(file.incoming.pools[0]!));
    await store.write(addEntry(reading(1, [], { id: old!.id, edited: '2026-01-01T00:00:00.000Z' })));
    await store.write(moveToBin({ id: 'bin-1', deleted: dayTime(1), entries: [], pool: null, scale: null }));
    await store.write(addEntry(deleted!));
    await store.write(moveToBin({ id: 'bin-2', deleted: dayTime(1), entries: [deleted!], pool: null, scale: null }));
    const before = await contents(store);

    const bin = await store.all('bin');
    const plan = planMerge(
      {
        pools: await store.all('pools'),
        entries: await store.all('entries'),
        scales: [],
        choices: [],
        binned: new Set(bin.flatMap(({ entries }) => entries.map(({ id }) => id))),
        pictureIds: new Set(),
      },
      file.incoming,
    );
    expect(plan.outOfBin).toEqual([deleted!.id]);
    const about = { id: 'import-1', time: dayTime(5), fileName: 'v4.json', binned: [deleted!] };
    await store.write(importFile(plan, file.incoming.pictures, importRecord(plan, about), bin));
    expect(await store.count('entries')).toBe(file.incoming.entries.length);
    expect(await store.ids('pictures')).toEqual(['picture-0001']);

    const record = (await store.get('imports', 'import-1'))!;
    const undo = planUndo(
      { pools: await store.all('pools'), entries: await store.all('entries'), scales: [], choices: [] },
      record,
    );
    await store.write(undoImport(record, undo, 'bin-2'));
    const after = (await contents(store)) as { bin: { deleted: string }[] };
    const forgetWhen = (all: unknown) => JSON.stringify(all, (key, value: unknown) => (key === 'deleted' ? '' : value));
    expect(forgetWhen(after)).toBe(forgetWhen(before));
  });

  it('takes nothing back over what another tab has changed since it looked', async () => {
    const store = await make();
    const file = readLogJson(readFileSync(new URL('../../core/log/versions/v4.json', import.meta.url), 'utf8'));
    if (!file.ok) throw new Error(file.failure);
    const nothing = {
      pools: [],
      entries: [],
      scales: [],
      choices: [],
      binned: new Set<string>(),
      pictureIds: new Set<string>(),
    };
    const plan = planMerge(nothing, file.incoming);
    const about = { id: 'import-1', time: dayTime(5), fileName: 'v4.json', binned: [] };
    await store.write(importFile(plan, file.incoming.pictures, importRecord(plan, about), []));
    const record = (await store.get('imports', 'import-1'))!;
    const undo = planUndo(
      { pools: await store.all('pools'), entries: await store.all('entries'), scales: [], choices: [] },
      record,
    );
    const touched = { ...file.incoming.entries[0]!, note: 'Changed in another tab' };
    await store.write(changeEntry(touched, dayTime(6)).change);
    const before = await contents(store);
    await expect(store.write(undoImport(record, undo, 'bin-1'))).rejects.toMatchObject({ failure: 'conflict' });
    expect(await contents(store)).toEqual(before);
  });
});
