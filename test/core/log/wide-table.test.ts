/** Ordinary tables, as people keep them in a spreadsheet. */
import { describe, expect, it } from 'vitest';
import { readLogCsv } from '../../../src/core/log/read-csv.ts';
import { guessMeanings, type TableChoice } from '../../../src/core/log/wide-table.ts';
import { problemText } from '../../../src/words/log.ts';
import { POOL } from './samples.ts';

function read(lines: readonly string[], locales: readonly string[] = ['en-GB'], table?: TableChoice) {
  let ids = 0;
  const newId = () => `fresh-${(ids += 1)}`;
  const context = {
    newId,
    now: '2026-11-01T00:00:00.000Z',
    zoneMinutes: 0,
    poolId: POOL.id,
    pools: [POOL],
    locales,
    table,
  };
  const result = readLogCsv(lines.join('\n'), context);
  if (!result.ok) throw new Error(result.failure);
  const readings = result.incoming.entries.map((entry) => ({
    time: entry.time,
    note: entry.note,
    kind: entry.kind,
    values:
      entry.kind === 'reading' ? Object.fromEntries(entry.values.map(({ quantity, value }) => [quantity, value])) : {},
  }));
  return {
    readings,
    problems: result.problems.map(problemText),
    table: result.table!,
    entries: result.incoming.entries,
  };
}

describe('an ordinary table', () => {
  it('is read by the names people give its columns, one reading a line', () => {
    const { readings, problems, table } = read([
      'Date,FC (ppm),pH,TA,CYA,Water temp (°F),Weather,Notes',
      '2026-06-02 10:00,2.5,7.4,90,40,77,sunny,Backwashed',
      '2026-06-05 09:30,3,7.6,,,78.8,rain,',
    ]);
    expect(problems).toEqual([]);
    expect(table.meanings).toEqual([
      'date',
      'free-chlorine',
      'ph',
      'total-alkalinity',
      'cyanuric-acid',
      'temperature-f',
      'none',
      'note',
    ]);
    // 77 °F is 25 °C, 78.8 °F is 26 °C.
    expect(readings[0]).toEqual({
      time: '2026-06-02T10:00:00.000Z',
      note: 'Backwashed',
      kind: 'reading',
      values: { 'free-chlorine': 2.5, ph: 7.4, 'total-alkalinity': 90, 'cyanuric-acid': 40, temperature: 25 },
    });
    expect(readings[1]!.values['temperature']).toBeCloseTo(26, 9);
  });

  it('keeps what can be read of a line, and says what can’t', () => {
    const { readings, problems } = read([
      'date,pH,chlorine',
      '2026-06-02,7.4,plenty',
      'yesterday,7.2,2',
      '2026-06-04,70,2',
    ]);
    expect(readings.map(({ values }) => values)).toEqual([{ ph: 7.4 }, { 'free-chlorine': 2 }]);
    expect(problems).toEqual([
      'line 2: “plenty” under “chlorine” is no value it can have, and is left out',
      'line 3: “yesterday” is no date, so the line is left out',
      'line 4: “70” under “pH” is no value it can have, and is left out',
    ]);
  });

  it('takes “>10” and “< 0.5” for open ends, and dashes for nothing', () => {
    const { entries } = read(['date,fc,tc,ph', '2026-06-02,>10,< 0.5,-']);
    const [first, second] = entries[0]!.kind === 'reading' ? entries[0]!.values : [];
    expect(first).toMatchObject({ quantity: 'free-chlorine', value: 10, openAbove: true, openBelow: false });
    expect(second).toMatchObject({ quantity: 'total-chlorine', value: 0.5, openBelow: true, openAbove: false });
  });

  it('reads numbers with a comma, between semicolons', () => {
    expect(read(['Date;pH;Salt', '02.06.2026;7,4;3.200'], ['de-DE']).readings[0]).toMatchObject({
      time: '2026-06-02T12:00:00.000Z',
      values: { ph: 7.4, salt: 3200 },
    });
  });

  it('keeps a line with nothing but a note as a note, and passes over empty ones', () => {
    const { readings } = read(['date,pH,notes', '2026-06-02,,Opened the pool', '2026-06-03,,', ',,']);
    expect(readings).toMatchObject([{ kind: 'note', note: 'Opened the pool' }]);
  });
});

describe('dates with two numbers before the year', () => {
  const days = (lines: readonly string[], locales?: readonly string[], choice?: TableChoice) =>
    read(['date,pH', ...lines.map((date) => `${date},7.4`)], locales, choice).readings.map(({ time }) =>
      time.slice(0, 16),
    );

  it('are told by a number above 12', () => {
    expect(days(['03/04/2026', '25/04/2026 9:05'])).toEqual(['2026-04-03T12:00', '2026-04-25T09:05']);
    expect(days(['03/04/2026', '4/25/2026 9:05 PM'])).toEqual(['2026-03-04T12:00', '2026-04-25T21:05']);
  });

  it('else by the visitor’s language, and the preview can ask', () => {
    expect(days(['03/04/2026'], ['en-GB'])).toEqual(['2026-04-03T12:00']);
    expect(days(['03/04/2026'], ['en-US'])).toEqual(['2026-03-04T12:00']);
    expect(read(['date,pH', '03/04/2026,7.4']).table.isOrderOpen).toBe(true);
    expect(days(['03/04/2026'], ['en-GB'], { meanings: ['date', 'ph'], monthFirst: true })).toEqual([
      '2026-03-04T12:00',
    ]);
  });

  it('are no days that no calendar has', () => {
    expect(read(['date,pH', '31/02/2026,7.4']).problems).toHaveLength(1);
  });
});

describe('columns', () => {
  it('hold what the visitor says', () => {
    const meanings = ['date', 'none', 'salt'] as const;
    const { readings } = read(['Day,pH,Other', '2026-06-02,7.4,3100'], ['en-GB'], { meanings, monthFirst: false });
    expect(readings[0]!.values).toEqual({ salt: 3100 });
  });

  it('are guessed by whole names only', () => {
    expect(guessMeanings(['Photo', 'phosphate', 'Stable', 'Calcium Hardness', 'Weekly alk', 'pH'])).toEqual([
      'none',
      'none',
      'none',
      'calcium-hardness',
      'none',
      'ph',
    ]);
  });
});

it('leaves an unknown parameter out of a reading, and keeps the rest', () => {
  const { readings, problems } = read([
    'time,parameter,value',
    '2026-06-02T10:00Z,pH,7.4',
    '2026-06-02T10:00Z,phosphate,300',
  ]);
  expect(readings).toMatchObject([{ values: { ph: 7.4 } }]);
  expect(problems).toEqual(['line 3: nothing is known of “phosphate”: it is left out, the other values stay']);
});
