/** Copies of one thing, scales without revisions, and taking all of it back: worked cases beside the random ones. */
import { describe, expect, it } from 'vitest';
import { isIdle, outlineOf, planMerge, type Present } from '../../../src/core/log/merge.ts';
import type { Entry } from '../../../src/core/log/schema.ts';
import { importRecord, planUndo } from '../../../src/core/log/undo.ts';
import type { StripScale } from '../../../src/core/scale/schema.ts';
import { POOL, reading } from './samples.ts';

const nothing: Present = {
  pools: [],
  entries: [],
  scales: [],
  choices: [],
  binned: new Set(),
  pictureIds: new Set(),
};
const noFile = { pools: [], entries: [], scales: [], pictures: [], choices: [] };
const scale = (id: string, name = 'Shed strips'): StripScale => ({
  format: 'dipwise-scale',
  version: 1,
  id,
  name,
  origin: 'taught',
  white: 'D65',
  strip: { lengthMm: 80, widthMm: 6 },
  pads: [],
  dipSeconds: 1,
  readAfterSeconds: 15,
  readBeforeSeconds: 60,
  teachings: [],
});

describe('two copies of an entry', () => {
  const entry = { ...reading(1, []), revision: 2, edited: '2026-06-05T00:00:00.000Z', note: 'b' };
  const later: Entry[] = [
    { ...entry, revision: 3, edited: '2026-06-04T00:00:00.000Z', note: 'a' },
    { ...entry, edited: '2026-06-05T00:00:00.001Z', note: 'a' },
    { ...entry, note: 'c' },
  ];

  it.each(later)('go by revision, then edit, then text: %j', (other) => {
    for (const entries of [
      [entry, other],
      [other, entry],
    ]) {
      // Both in one file.
      expect(planMerge(nothing, { ...noFile, entries }).entries.add).toEqual([other]);
      const [mine, theirs] = entries as [Entry, Entry];
      const { add, replace, same, older } = planMerge(
        { ...nothing, entries: [mine] },
        { ...noFile, entries: [theirs] },
      ).entries;
      const isLater = theirs === other;
      expect({ add, replace, same, older }).toEqual({
        add: [],
        replace: isLater ? [{ before: entry, after: other }] : [],
        same: 0,
        older: isLater ? 0 : 1,
      });
    }
  });

  it('are the same whatever the order of their keys', () => {
    const { note, ...rest } = entry;
    const plan = planMerge(
      { ...nothing, pools: [POOL], entries: [entry] },
      { ...noFile, entries: [{ note, ...rest }] },
    );
    expect(plan.entries).toEqual({ add: [], replace: [], same: 1, older: 0 });
    expect(isIdle(outlineOf(plan))).toBe(true);
  });

  it('said twice under two ids in one file are two, and stay two when the file comes again without its ids', () => {
    const twin = { ...entry, id: 'a-second-id' };
    const first = planMerge(nothing, { ...noFile, entries: [entry, twin] }).entries;
    expect(first).toMatchObject({ add: [entry, twin], same: 0 });
    const [third, fourth, fifth] = ['third', 'fourth', 'fifth'].map((id) => ({ ...entry, id: `${id}-id` }));
    const again = planMerge({ ...nothing, entries: first.add }, { ...noFile, entries: [third!, fourth!, fifth!] });
    expect(again.entries).toMatchObject({ add: [fifth], same: 2 });
  });

  it('have one stand-in for the pool that neither describes', () => {
    const second = { ...reading(2, []), edited: '2026-06-09T00:00:00.000Z' };
    const { pools } = planMerge(nothing, { ...noFile, entries: [entry, second] });
    const { id, edited } = { id: POOL.id, edited: entry.edited };
    expect(pools.add).toEqual([
      { id, name: 'Pool', revision: 1, edited, volumeLitres: null, chlorinatorGramsPerDay: null, details: {} },
    ]);
    expect(planMerge({ ...nothing, pools: [POOL] }, { ...noFile, entries: [entry] }).pools.add).toEqual([]);
    expect(planMerge(nothing, { ...noFile, pools: [POOL], entries: [entry] }).pools.add).toEqual([POOL]);
  });
});

describe('scales', () => {
  const plan = (present: readonly StripScale[], ...scales: StripScale[]) =>
    planMerge({ ...nothing, scales: present }, { ...noFile, scales }).scales;

  it('are known by what they say, under any id', () => {
    expect(plan([scale('mine')], scale('theirs'))).toEqual({ add: [], replace: [], same: 1, older: 0 });
    expect(plan([], scale('one'), scale('two'))).toMatchObject({ add: [scale('one')], same: 1 });
  });

  it('come beside another one of their id, never in its place', () => {
    const { add } = plan([scale('shed', 'A')], scale('shed', 'B'), scale('shed', 'C'), scale('barn', 'D'));
    expect(add).toEqual([scale('shed-2', 'B'), scale('shed-3', 'C'), scale('barn', 'D')]);
    // An id has at most 64 characters.
    const long = 'x'.repeat(64);
    expect(plan([scale(long, 'A')], scale(long, 'B')).add).toEqual([scale(`${'x'.repeat(58)}-2`, 'B')]);
  });

  it('alone are something to do, and so are pictures', () => {
    expect(isIdle(outlineOf(planMerge(nothing, noFile)))).toBe(true);
    expect(isIdle(outlineOf(planMerge(nothing, { ...noFile, scales: [scale('shed')] })))).toBe(false);
    const entries = [reading(1, [], { pictureId: 'picture-1' })];
    const pictures = [{ id: 'picture-1', base64: '/9j/' }];
    expect(isIdle(outlineOf(planMerge({ ...nothing, pools: [POOL], entries }, { ...noFile, entries, pictures })))).toBe(
      false,
    );
  });
});

describe('taking an import back', () => {
  const about = { id: 'import-1', time: '2026-07-01T00:00:00.000Z', fileName: 'log.json', binned: [] };
  const theirs = reading(1, [], { pictureId: 'picture-1' });
  const file = {
    pools: [POOL],
    entries: [theirs],
    scales: [scale('shed')],
    pictures: [{ id: 'picture-1', base64: '/9j/' }],
    choices: [{ key: 'settings.sound' as const, value: 'on' as const }],
  };
  const record = importRecord(planMerge(nothing, file), about);

  it('takes away all that it brought', () => {
    expect(planUndo(file, record)).toEqual({
      removeEntries: [theirs.id],
      removePools: [POOL.id],
      removeScales: ['shed'],
      removePictures: ['picture-1'],
      putEntries: [],
      putPools: [],
      putInBin: [],
      choices: { remove: ['settings.sound'], put: [], kept: 0 },
      kept: 0,
    });
  });

  it('leaves and counts what was changed since: an entry, its pool, a choice', () => {
    const present = {
      pools: [{ ...POOL, revision: 2 }],
      entries: [{ ...theirs, revision: 2 }],
      scales: [scale('shed', 'Renamed')],
      choices: [{ key: 'settings.sound' as const, value: 'off' as const }],
    };
    expect(planUndo(present, record)).toMatchObject({
      removeEntries: [],
      removePools: [],
      removeScales: [],
      removePictures: [],
      kept: 3,
    });
  });

  it('leaves the pool and the picture that an entry of one’s own needs', () => {
    const own = reading(2, [], { pictureId: 'picture-1' });
    expect(planUndo({ ...file, entries: [theirs, own] }, record)).toMatchObject({
      removeEntries: [theirs.id],
      removePools: [],
      removePictures: [],
      kept: 0,
    });
  });

  it('gives back what was replaced, or counts it where it was changed since', () => {
    const mine = { ...theirs, note: 'mine' };
    const after = { ...theirs, revision: 2, note: 'theirs' };
    const replaced = importRecord(
      planMerge({ ...nothing, pools: [POOL], entries: [mine] }, { ...noFile, entries: [after] }),
      about,
    );
    const undo = (entries: readonly Entry[]) => planUndo({ ...nothing, pools: [POOL], entries }, replaced);
    expect(undo([after])).toMatchObject({ putEntries: [mine], removeEntries: [], kept: 0 });
    expect(undo([{ ...after, revision: 3 }])).toMatchObject({ putEntries: [], kept: 1 });
    expect(undo([])).toMatchObject({ putEntries: [], kept: 0 });
  });
});
