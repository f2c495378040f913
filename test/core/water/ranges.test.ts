import { describe, expect, it } from 'vitest';
import { RANGES, rangesOf, type SourcedRange } from '../../../src/core/water/ranges.ts';
import { readTable, type Row } from '../../reference/read-table.ts';

const PARAMETERS: Record<string, string[]> = {
  'free-chlorine': ['free chlorine'],
  'combined-chlorine': ['combined chlorine'],
  ph: ['pH'],
  'total-alkalinity': ['total alkalinity', 'total alkalinity (acid capacity)'],
  'calcium-hardness': ['calcium hardness'],
  'cyanuric-acid': ['cyanuric acid'],
  salt: ['salt'],
  temperature: ['temperature'],
  'saturation-index': ['saturation index'],
  boron: ['boron (as B)'],
};
const published = readTable('ranges.csv');
const columns = { min: 'minimum', idealLow: 'ideal_low', idealHigh: 'ideal_high', max: 'maximum' } as const;

/** Every number in a cell of the published table, which may hold two ("80 (hypochlorites) / 100 (trichlor...)"). */
const numbersIn = (row: Row, key: keyof typeof columns) =>
  [...(row[columns[key]] ?? '').matchAll(/-?\d+(\.\d+)?/g)].map(([text]) => Number(text));

/** The same body is named at different length from row to row; the CDC publishes two texts. */
const body = (text: string) =>
  text
    .split(/[ ,]/)
    .slice(0, text.startsWith('CDC') ? 2 : 1)
    .join(' ');

function sameSource({ source }: SourcedRange, row: Row): boolean {
  if (source === '') return row['source']!.startsWith('common practice');
  if (source.startsWith('public copies')) return row['source']!.startsWith('several public');
  return body(row['source']!) === body(source);
}

function matches(range: SourcedRange, row: Row): boolean {
  if (!PARAMETERS[range.parameter]!.includes(row['parameter']!)) return false;
  return (
    sameSource(range, row) &&
    (['min', 'idealLow', 'idealHigh', 'max'] as const).every(
      (key) => range[key] === null || numbersIn(row, key).includes(range[key]),
    )
  );
}

describe('the sourced ranges', () => {
  it.each(RANGES.map((range) => [`${range.parameter}, ${range.water}, ${range.whose}`, range] as const))(
    '%s: every number is in the published table under that source',
    (_, range) => {
      expect(published.filter((row) => matches(range, row)).length).toBeGreaterThan(0);
    },
  );

  it('claims to have read only what was read', () => {
    for (const range of RANGES) {
      const rows = published.filter((row) => matches(range, row));
      const status = rows.map((row) => row['status']!).join('; ');
      if (range.status === 'memory') expect(status).toMatch(/memory/);
      if (range.status === 'common-practice') expect(status).toMatch(/common practice/);
      if (range.status === 'read')
        expect(rows.some((row) => /^(read$|minimum and maximum read)/.test(row['status']!))).toBe(true);
      if (range.status === 'read-elsewhere') expect(status).toMatch(/read (in|as)/);
    }
  });

  it('rises from end to end', () => {
    for (const { min, idealLow, idealHigh, max } of RANGES) {
      const ends = [min, idealLow, idealHigh, max].filter((end) => end !== null);
      expect([...ends].sort((a, b) => a - b)).toEqual(ends);
      expect(ends.length).toBeGreaterThan(0);
    }
  });

  it('has something for every parameter', () => {
    let rows = 0;
    for (const parameter of Object.keys(PARAMETERS)) {
      const found = rangesOf(parameter as never);
      expect(found.length).toBeGreaterThan(0);
      for (const row of found) expect(row.parameter).toBe(parameter);
      rows += found.length;
    }
    expect(rows).toBe(RANGES.length);
  });
});

/** Words of ours for the water, as the table words it. */
const WATERS: Record<string, RegExp> = {
  any: /^(pool|pool, any|pool and spa|pool basin)$/,
  public: /^public pool$/,
  pool: /^pool$/,
  'without stabilizer': /without cyan|^pool basin$/,
  'with stabilizer': /with cyan/,
  outdoor: /outdoor/,
  'hot tub': /^spa$/,
  swimming: /swimming/,
  'electrolytic chlorine': /electrolytic-chlorine/,
  'with borate': /with borate/,
};

describe('for which water, and of which edition', () => {
  const editionOf = (row: Row) => {
    const before = published[published.indexOf(row) - 1]!;
    return row['edition_or_date'] === 'as above' ? before['edition_or_date']! : row['edition_or_date']!;
  };
  /** A word or a year of the table's. The code in force in January 2021 is that of 2018: its first row says so. */
  const isEdition = (ours: string, row: Row) =>
    ours === ''
      ? editionOf(row) === ''
      : ours.split(' ').every((word) =>
          editionOf(row)
            .replace(/in force Jan 2021$/, '2018')
            .includes(word),
        );

  it.each(RANGES.map((range) => [`${range.parameter}, ${range.water}, ${range.whose}`, range] as const))(
    '%s',
    (_, range) => {
      const rows = published.filter((row) => matches(range, row));
      const water = WATERS[range.water];
      const fits = rows.filter((row) =>
        water ? water.test(row['water']!) : row['ideal_low']!.includes(`(${range.water})`),
      );
      expect(fits.filter((row) => isEdition(range.edition, row)).length).toBeGreaterThan(0);
    },
  );
});
