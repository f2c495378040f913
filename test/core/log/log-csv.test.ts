import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readLogCsv } from '../../../src/core/log/read-csv.ts';
import { LOG_VERSION } from '../../../src/core/log/schema.ts';
import { judgementText } from '../../../src/words/reading.ts';
import { writeLogCsv } from '../../../src/core/log/write-csv.ts';
import { log } from './arbitrary.ts';
import { addition, loggedValue, POOL, reading } from './samples.ts';

let ids = 0;
const context = {
  newId: () => `fresh-${String((ids += 1)).padStart(4, '0')}`,
  now: '2026-07-01T00:00:00.000Z',
  zoneMinutes: 120,
  poolId: POOL.id,
  pools: [POOL],
};
const ABOUT = 'All readings; pictures are not in this file.';
const write = (data: Parameters<typeof writeLogCsv>[0]) =>
  writeLogCsv(data, '2026-07-01T00:00:00.000Z', { about: ABOUT, judgement: judgementText });

describe('the table of the logbook', () => {
  it('loses nothing on the way out and in but plans, which are left to the other file', () => {
    fc.assert(
      fc.property(log, (data) => {
        const read = readLogCsv(write(data), { ...context, pools: [] });
        expect(read).toMatchObject({ ok: true, problems: [] });
        if (!read.ok) return;
        expect(read.incoming.pools).toEqual(data.pools);
        expect(read.incoming.entries).toEqual(data.entries.filter(({ kind }) => kind !== 'plan'));
      }),
      { seed: 7, numRuns: 300 },
    );
  });

  it('has one row a value, units in the header, ISO 8601 times, and says what it holds', () => {
    const entries = [
      reading(0, [loggedValue('free-chlorine', 2.5, 0.5), loggedValue('ph', 7.4, 0.1)]),
      addition(0.1, 'acid', { product: '=acid' }),
    ];
    const rows = parse(write({ pools: [POOL], entries }), { columns: true }) as Record<string, string>[];
    expect(rows.map((row) => row['record'])).toEqual(['about', 'pool', 'reading', 'reading', 'addition']);
    expect(rows[0]).toMatchObject({ id: `dipwise-logbook-${LOG_VERSION}`, note: ABOUT });
    expect(rows[2]).toMatchObject({
      'time (ISO 8601)': '2026-06-01T09:00:00.000+02:00',
      pool: POOL.name,
      parameter: 'free-chlorine',
      'value (in the unit)': '2.5',
      'low (in the unit)': '2',
      'high (in the unit)': '3',
      unit: 'mg/L',
    });
    expect(rows[3]).toMatchObject({
      parameter: 'ph',
      unit: 'pH',
      'measured by': 'photo',
      'strip scale from': 'practice',
    });
    expect(rows[4]).toMatchObject({ product: "'=acid" });
  });

  it('reads a table made by hand', () => {
    const read = readLogCsv(
      'Time,Parameter,Value,Pool\n2026-07-02 18:30,Free chlorine,"1,5",Upper pool\n2026-07-02 18:30,pH,7.6,Upper pool\n',
      context,
    );
    if (!read.ok) throw new Error(read.failure);
    expect(read.problems).toEqual([]);
    expect(read.incoming.pools).toMatchObject([{ name: 'Upper pool' }]);
    expect(read.incoming.entries).toMatchObject([
      {
        kind: 'reading',
        origin: 'typed',
        time: '2026-07-02T16:30:00.000Z',
        zoneMinutes: 120,
        poolId: read.incoming.pools[0]!.id,
        values: [
          { quantity: 'free-chlorine', value: 1.5, method: 'unsaid' },
          { quantity: 'ph', value: 7.6 },
        ],
      },
    ]);
  });

  it('reads what version 4 wrote: a value by hand in the row of the photo’s, the temperature in a column', () => {
    const read = readLogCsv(
      [
        'record,time,pool,parameter,value,unit,low,high,word,photo value,value by hand,water temperature (°C),origin,id',
        'about,2026-07-01T00:00:00.000Z,,,,,,,,,,,,dipwise-logbook-4',
        'reading,2026-07-01T00:00Z,,free-chlorine,1.5,mg/L,1,2,low,1.5,,19.5,photo,reading-1',
        'reading,2026-07-01T00:00Z,,ph,7.6,pH,7.2,7.6,in-range,7.4,7.6,19.5,photo,reading-1',
        'reading,2026-07-01T00:00Z,,salt,,mg/L,,,unmatched,,,19.5,photo,reading-1',
      ].join('\n'),
      context,
    );
    if (!read.ok) throw new Error(read.failure);
    expect(read.problems).toEqual([]);
    expect(read.incoming.entries).toMatchObject([
      {
        values: [
          { quantity: 'free-chlorine', value: 1.5, low: 1, high: 2, method: 'photo', word: 'low' },
          { quantity: 'ph', value: 7.4, low: 7.2, high: 7.6, method: 'photo', word: null },
          { quantity: 'ph', value: 7.6, method: 'unsaid', word: 'in-range', isSure: null },
          { quantity: 'temperature', value: 19.5, method: 'meter' },
        ],
        unmatched: ['salt'],
      },
    ]);
  });

  it('reads the same table with semicolons and decimal commas', () => {
    const points = 'time,parameter,value\n2026-06-01T10:00Z,pH,7.4\n2026-06-01T10:00Z,free chlorine,2.5\n';
    const commas = points.replaceAll(',', ';').replaceAll('.', ',');
    const values = (text: string) => {
      const read = readLogCsv(text, context);
      if (!read.ok) throw new Error(read.failure);
      expect(read.problems).toEqual([]);
      return read.incoming.entries.map((entry) => ({ ...entry, id: '' }));
    };
    expect(values(commas)).toEqual(values(points));
    expect(values(commas)).toHaveLength(1);
  });

  it('says which line is wrong and keeps the rest', () => {
    const read = readLogCsv(
      [
        'record,time,parameter,value,product,amount,amount unit',
        'reading,2026-07-02T18:30Z,ph,7.6',
        'reading,yesterday,ph,7.6',
        'reading,2026-02-30T10:00Z,ph,7.6',
        'reading,2026-07-03T18:30Z,ph,lots',
        'reading,2026-07-04T18:30Z,mood,3',
        'addition,2026-07-04T18:30Z,,,acid,-1,L',
        'party,2026-07-04T18:30Z,,,,,',
      ].join('\n'),
      context,
    );
    if (!read.ok) throw new Error(read.failure);
    expect(read.incoming.entries).toHaveLength(1);
    expect(read.problems.map(({ where }) => `${where.what} ${where.at}`)).toEqual([
      'line 3',
      'line 4',
      'line 5',
      'line 6',
      'line 7',
      'line 8',
    ]);
  });

  it.each([
    ['', 'empty'],
    ['a,b\n1,2\n', 'not-a-logbook'],
    ['time,value\n2026-07-02,7\n', 'not-a-logbook'],
    ['record,parameter,value\nreading,ph,7\n', 'not-a-logbook'],
    ['record,time,id\nabout,2026-07-02,dipwise-logbook-99\n', 'newer-version'],
  ])('refuses %j as %s', (file, failure) => {
    expect(readLogCsv(file, context)).toEqual({ ok: false, failure });
  });
});
