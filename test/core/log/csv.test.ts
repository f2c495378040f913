import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { markText, readCsv, unmarkText, writeCsv } from '../../../src/core/log/csv.ts';

const fieldsOf = (file: string) => readCsv(file).map(({ fields }) => fields);

describe('reading after RFC 4180, section 2', () => {
  it.each([
    [
      '1: records end in CRLF',
      'aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n',
      [
        ['aaa', 'bbb', 'ccc'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    [
      '2: the last may go without',
      'aaa,bbb,ccc\r\nzzz,yyy,xxx',
      [
        ['aaa', 'bbb', 'ccc'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    ['4: spaces are part of a field', ' aaa , bbb\r\n', [[' aaa ', ' bbb']]],
    ['5: quotes may go around fields', '"aaa","bbb",ccc\r\n', [['aaa', 'bbb', 'ccc']]],
    [
      '6: line breaks and commas inside quotes',
      '"aaa","b \r\nbb","c,c"\r\nzzz,yyy,xxx',
      [
        ['aaa', 'b \r\nbb', 'c,c'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    ['7: quotes are doubled', '"aaa","b""bb","ccc"', [['aaa', 'b"bb', 'ccc']]],
  ])('%s', (_rule, file, records) => {
    expect(fieldsOf(file)).toEqual(records);
  });

  it('takes what spreadsheets and editors make of it', () => {
    expect(fieldsOf('\ufeffa,b\nc,d\n\n\re,f')).toEqual([
      ['a', 'b'],
      ['c', 'd'],
      ['e', 'f'],
    ]);
    expect(fieldsOf('a,')).toEqual([['a', '']]);
    expect(fieldsOf('"never closed,\nb')).toEqual([['never closed,\nb']]);
    expect(fieldsOf('')).toEqual([]);
    expect(fieldsOf('a,\ufeffb')).toEqual([['a', '\ufeffb']]);
    expect(fieldsOf('"a"b"c",d')).toEqual([['ab"c"', 'd']]);
  });

  it('takes semicolons where the header has them, as spreadsheets do whose decimal sign is the comma', () => {
    expect(fieldsOf('time;"a;b";value\r\n"x;y";"1;2";7,4\r\n')).toEqual([
      ['time', 'a;b', 'value'],
      ['x;y', '1;2', '7,4'],
    ]);
    expect(fieldsOf('"a;b",c\r\nd;e,f\r\n')).toEqual([
      ['a;b', 'c'],
      ['d;e', 'f'],
    ]);
    expect(fieldsOf('"a;\nb",c\n')).toEqual([['a;\nb', 'c']]);
  });

  it('knows the line on which a record starts', () => {
    expect(readCsv('a\r\n"b\nb"\r\nc\r\n').map(({ line }) => line)).toEqual([1, 2, 4]);
    expect(readCsv('a\n\nb\r\rc\r\n\r\n"d\r\nd\re"\nf').map(({ line }) => line)).toEqual([1, 3, 5, 7, 10]);
  });
});

const field = fc.oneof(
  fc.constantFrom('', ',', '"', '\r\n', '\n', "'", ' x ', '=1', ';', '\t', 'x"y'),
  fc.string({ unit: 'grapheme', maxLength: 12 }),
);
const table = fc
  .integer({ min: 2, max: 5 })
  .chain((width) => fc.array(fc.array(field, { minLength: width, maxLength: width }), { minLength: 1, maxLength: 6 }));

describe('against general-purpose CSV libraries', () => {
  it('writes what csv-parse and Papa Parse read back', () => {
    fc.assert(
      fc.property(table, (records) => {
        const file = writeCsv(records);
        expect(parse(file, { record_delimiter: '\r\n' })).toEqual(records);
        expect(Papa.parse(file, { delimiter: ',', newline: '\r\n' }).data.slice(0, records.length)).toEqual(records);
        expect(fieldsOf(file)).toEqual(records);
      }),
      { seed: 4180, numRuns: 400 },
    );
  });

  it('reads what Papa Parse writes', () => {
    fc.assert(
      fc.property(table, (records) => {
        expect(fieldsOf(Papa.unparse(records, { newline: '\r\n' }))).toEqual(records);
      }),
      { seed: 4181, numRuns: 400 },
    );
  });
});

/* OWASP, "CSV Injection": the characters with which no cell may begin, and the page's two worked examples. */
const OWASP_STARTS = ['=', '+', '-', '@', '\t', '\r', '\n'];

describe('against formulas, after OWASP "CSV Injection"', () => {
  it.each([
    ['=1+2";=1+2', `"'=1+2"";=1+2"`],
    [`=1+2'" ;,=1+2`, `"'=1+2'"" ;,=1+2"`],
  ])('escapes %s as the page does', (input, escaped) => {
    expect(writeCsv([[markText(input), 'x']])).toBe(`${escaped},x\r\n`);
  });

  it('never lets a marked cell begin as a formula does, and takes the mark off again', () => {
    fc.assert(
      fc.property(
        fc.oneof(
          field,
          fc.tuple(fc.constantFrom(...OWASP_STARTS, '＝', "'", ' =', '\ufeff='), field).map(([a, b]) => a + b),
        ),
        (text) => {
          const cell = parse(writeCsv([[markText(text), 'x']]), { record_delimiter: '\r\n' })[0]![0]!;
          expect(OWASP_STARTS).not.toContain(cell.trimStart().slice(0, 1));
          expect(unmarkText(cell)).toBe(text);
        },
      ),
      { seed: 1236, numRuns: 1000 },
    );
  });

  it.each([
    '\u200b',
    '\u2060',
    '\u00ad',
    '\u200e',
    '\u202e',
    '\u180e',
    '\u3164',
    '\ufe0f',
    '\u2800',
    '\u0301',
    '\u00a0',
  ])('marks a formula behind the unseen %j', (unseen) => {
    for (const start of ['=', '+', '-', '@', '\uff1d', '\ufe66', '\u2212']) {
      const text = `${unseen}${start}HYPERLINK("x")`;
      expect(markText(text), JSON.stringify(text)).toBe(`'${text}`);
      expect(unmarkText(markText(text))).toBe(text);
    }
    expect(markText(`${unseen}clear water`)).toBe(`${unseen}clear water`);
  });

  it('leaves alone what others marked or quoted themselves', () => {
    expect(unmarkText("'tis")).toBe("'tis");
    expect(unmarkText("'=1")).toBe('=1');
  });
});
