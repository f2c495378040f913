/** Tables that a person or another program wrote: what a cell left out, or written loosely, is taken for. */
import { describe, expect, it } from 'vitest';
import { readLogCsv } from '../../../src/core/log/read-csv.ts';
import { LOG_VERSION } from '../../../src/core/log/schema.ts';
import { judgementText } from '../../../src/words/reading.ts';
import { writeLogCsv } from '../../../src/core/log/write-csv.ts';
import { loggedValue, POOL, reading } from './samples.ts';

const NOW = '2026-07-01T00:00:00.000Z';

function read(...lines: string[]) {
  let ids = 0;
  const newId = () => `fresh-${(ids += 1)}`;
  const context = { newId, now: NOW, zoneMinutes: 120, poolId: 'pool-shown', pools: [POOL] };
  const result = readLogCsv(lines.join('\n'), context);
  if (!result.ok) throw new Error(result.failure);
  return { ...result.incoming, problems: result.problems };
}

describe('a row', () => {
  it('said twice at one time is two entries, of whatever kind', () => {
    const reading = ['reading,2026-06-02T10:00Z,pH,7.4,', 'reading,2026-06-02T10:00Z,free chlorine,2,'];
    const note = 'note,2026-06-02T10:00Z,,,Rinsed the filter';
    const { entries } = read('record,time,parameter,value,note', ...reading, ...reading, note, note);
    expect(entries.map((entry) => (entry.kind === 'reading' ? entry.values.length : entry.note))).toEqual([
      2,
      2,
      'Rinsed the filter',
      'Rinsed the filter',
    ]);
    expect(new Set(entries.map(({ id }) => id)).size).toBe(4);
  });

  it('without more than a time and a value is a reading typed today, of the pool that is shown', () => {
    const { entries, problems, ...rest } = read('time,parameter,value', '2026-06-02T10:00Z,pH,7.4');
    expect({ problems, ...rest }).toEqual({ problems: [], pools: [], scales: [], pictures: [], choices: [] });
    expect(entries).toEqual([
      {
        kind: 'reading',
        id: 'fresh-1',
        poolId: 'pool-shown',
        revision: 1,
        edited: NOW,
        time: '2026-06-02T10:00:00.000Z',
        zoneMinutes: 0,
        note: '',
        origin: 'typed',
        values: [
          {
            quantity: 'ph',
            value: 7.4,
            low: expect.closeTo(7.1, 9) as number,
            high: expect.closeTo(7.7, 9) as number,
            alternative: null,
            offScale: null,
            openAbove: false,
            openBelow: false,
            method: 'unsaid',
            word: null,
            otherWord: null,
            isSure: null,
          },
        ],
        unmatched: [],
        scale: null,
        correction: null,
        sinceDipSeconds: null,
        warnings: [],
        quality: null,
        pictureId: null,
      },
    ]);
  });

  it('of another unit than its parameter’s is refused', () => {
    const { entries, problems } = read('time,parameter,value,unit', '2026-06-02,ph,7.4,mg/L', '2026-06-03,ph,7.4,pH');
    expect(entries).toHaveLength(1);
    expect(problems).toMatchObject([{ where: { what: 'line', at: 2 } }]);
  });

  it('of a reading joins those of its time and pool; additions and notes stay apart', () => {
    const { entries, problems } = read(
      'record,time,pool,parameter,value,product,amount,amount unit',
      'reading,2026-06-02T10:00Z,,ph,7.4',
      'addition,2026-06-02T10:00Z,,,,Acid,1,L',
      'addition,2026-06-02T10:00Z,,,,Acid,2,L',
      'addition,2026-06-02T10:00Z,,,,Acid,3,L',
      'reading,2026-06-02T10:00Z,,salt,3000',
      'reading,2026-06-02T10:00Z,Other pool,ph,7.6',
      ',2026-06-02T10:00Z,,ph,7.4',
      ',2026-06-02T10:00Z,,salt,3000',
    );
    expect(problems).toEqual([]);
    expect(entries.map((entry) => (entry.kind === 'reading' ? entry.values.length : entry.kind))).toEqual([
      2,
      'addition',
      'addition',
      'addition',
      1,
      2,
    ]);
    expect(entries.filter((entry) => entry.kind === 'addition')).toMatchObject(
      [1, 2, 3].map((amount) => ({
        origin: 'typed',
        agent: 'other',
        amount,
        unit: 'L',
        chlorineGrams: null,
        acidMoles: null,
        productId: null,
        strength: null,
      })),
    );
  });

  it('of weather may leave out all but its kind', () => {
    const { entries } = read(
      'record,time,sky,rain (mm),bathers,air temperature (°C)',
      'weather,2026-06-02',
      'weather,2026-06-03,storm,12.5,3,-2',
    );
    expect(entries).toMatchObject([
      { kind: 'weather', sky: null, rainMm: null, bathers: null, airTemperatureC: null },
      { kind: 'weather', sky: 'storm', rainMm: 12.5, bathers: 3, airTemperatureC: -2 },
    ]);
  });

  it('may name its parameter and its columns loosely', () => {
    const { entries, problems } = read(
      ' TIME (local) ,Parameter(which),Value',
      '2026-06-02, Free_Chlorine ,2',
      '2026-06-02,TOTAL  alkalinity,90',
    );
    expect(problems).toEqual([]);
    expect(entries).toMatchObject([{ values: [{ quantity: 'free-chlorine' }, { quantity: 'total-alkalinity' }] }]);
  });

  it.each([
    ['7.4', 7.4],
    ['"7,4"', 7.4],
    ['+7', 7],
    ['7.', 7],
    ['.5', 0.5],
    ['74e-1', 7.4],
    ['0.74E1', 7.4],
    [' 7.4 ', 7.4],
  ])('takes %s for a number', (cell, value) => {
    expect(read('time,parameter,value', `2026-06-02,ph,${cell}`).entries).toMatchObject([{ values: [{ value }] }]);
  });

  it.each(['7.4.1', '0x7', '7 4', 'Infinity', '.', '1e9999', '<7', '7pH'])('takes %s for none', (cell) => {
    expect(read('time,parameter,value', `2026-06-02,ph,${cell}`)).toMatchObject({
      entries: [],
      problems: [{ where: { what: 'line', at: 2 } }],
    });
  });
});

describe('a pool', () => {
  it('is known by its name, and made once where the name is new', () => {
    const { pools, entries } = read(
      'time,pool,parameter,value',
      `2026-06-02,"${POOL.name}",ph,7.4`,
      '2026-06-02,Upper pool,ph,7.5',
      '2026-06-03, Upper pool ,ph,7.6',
      '2026-06-03,,ph,7.7',
    );
    const made = pools[0]!;
    expect(pools).toEqual([
      {
        id: made.id,
        name: 'Upper pool',
        revision: 1,
        edited: NOW,
        volumeLitres: null,
        chlorinatorGramsPerDay: null,
        details: {},
      },
    ]);
    expect(entries.map(({ poolId }) => poolId)).toEqual([POOL.id, made.id, made.id, 'pool-shown']);
  });

  it('may be described in the table, before or after what belongs to it', () => {
    const { pools, entries } = read(
      'record,time,pool,parameter,value,pool id,id,pool volume (L)',
      'reading,2026-06-02,Upper pool,ph,7.4',
      'reading,2026-06-03,Upper pool,ph,7.4,lower-pool',
      'pool,,Upper pool,,,,upper-pool,30000',
    );
    expect(pools).toEqual([
      {
        id: 'upper-pool',
        name: 'Upper pool',
        revision: 1,
        edited: NOW,
        volumeLitres: 30_000,
        chlorinatorGramsPerDay: null,
        details: {},
      },
    ]);
    expect(entries.map(({ poolId }) => poolId)).toEqual(['upper-pool', 'lower-pool']);
  });

  it('that is wrong is named by its line', () => {
    expect(read('record,time,pool,pool volume', 'pool,,Upper pool,-3').problems).toMatchObject([
      { where: { what: 'line', at: 2 } },
    ]);
  });
});

describe('a value on its way out and in', () => {
  const back = (change: Partial<ReturnType<typeof loggedValue>>) => {
    const value = { ...loggedValue('ph', 7.4, 0.2), isSure: null, ...change };
    const file = writeLogCsv({ pools: [POOL], entries: [reading(0, [value])] }, NOW, {
      about: 'About.',
      judgement: judgementText,
    });
    const [entry] = read(file).entries;
    return { value, read: entry?.kind === 'reading' ? entry.values[0] : undefined, file };
  };

  it.each([
    { openAbove: true },
    { openBelow: true },
    { openAbove: true, openBelow: true },
    { isSure: true },
    { isSure: false },
    { method: 'drops' as const },
    { alternative: { value: 8, low: 7.9, high: 8.2 } },
    { offScale: 'above' as const },
    { quantity: 'temperature' as const },
  ])('keeps %j', (change) => {
    const { value, read } = back(change);
    expect(read).toEqual(value);
  });

  it('says where the scale ends in words a person reads', () => {
    expect(back({ openAbove: true }).file).toContain(',above,');
    expect(back({ openBelow: true }).file).toContain(',below,');
    expect(back({ openAbove: true, openBelow: true }).file).toContain(',"below above",');
  });

  it('of this program’s version is no newer one', () => {
    expect(read('record,time,id', `about,2026-07-02,dipwise-logbook-${LOG_VERSION}`)).toMatchObject({ entries: [] });
  });
});
