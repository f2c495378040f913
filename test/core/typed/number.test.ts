import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fieldNumber, readNumber, type TypedNumber } from '../../../src/core/typed/number.ts';

const number = (value: number): TypedNumber => ({ kind: 'number', value });
const unclear = (...values: [number, number]): TypedNumber => ({ kind: 'unclear', values });
const NOT: TypedNumber = { kind: 'not-a-number' };

describe('a number that somebody types', () => {
  it.each([
    ['40,000', 40_000],
    ['1.500,5', 1500.5],
    ['1,500.5', 1500.5],
    ['0,050', 0.05],
    ['0.050', 0.05],
    ['-0,050', -0.05],
    ['1 500', 1500],
    ['1 500,25', 1500.25],
    ['1\u202f500,25', 1500.25],
    ['1\u2009500', 1500],
    ['1\u00a0234\u00a0567', 1_234_567],
    ["12'500.5", 12_500.5],
    ['12’500', 12_500],
    ['1,234,567', 1_234_567],
    ['1.234.567', 1_234_567],
    ['1.234.567,8', 1_234_567.8],
    ['12,34,567.8', 1_234_567.8],
    ['7.4', 7.4],
    ['7,4', 7.4],
    [' 7,45 ', 7.45],
    ['1234,567', 1234.567],
    [',5', 0.5],
    ['.5', 0.5],
    ['5.', 5],
    ['−1,5', -1.5],
    ['+ 3', 3],
    ['-0', 0],
    ['１５００', 1500],
    ['７．４', 7.4],
    ['７。４', 7.4],
    ['１，５００．５', 1500.5],
    ['١٬٥٠٠', 1500],
    ['١٬٥٠٠٫٥', 1500.5],
    ['۷٫۴', 7.4],
    ['७.४', 7.4],
    ['১,২৩,৪৫৬', 123_456],
    ['𞥗.𞥔', 7.4],
    ['\u200e-7.4', -7.4],
  ])('%s', (text, value) => {
    expect(readNumber(text, ['en-GB'])).toEqual(number(value));
  });

  it.each([
    'abc',
    '1e3',
    '7.4 ppm',
    '1,50,0',
    '1.2.3',
    '1,2,3',
    '15 00',
    '1,500,5',
    '0,123,456',
    '--1',
    '-',
    '.',
    ',',
    '1,,500',
    '½',
    'Infinity',
    '1.500.5',
    '1,500.5.2',
    '1٫5٫5',
    '0x10',
    '1_000',
  ])('%s is none', (text) => {
    expect(readNumber(text, ['en-GB'])).toEqual(NOT);
  });

  it('may be blank', () => {
    for (const text of ['', ' ', '\u00a0', '\u200e']) expect(readNumber(text, ['en-GB'])).toEqual({ kind: 'blank' });
  });
});

describe('a number with two meanings', () => {
  it('goes by the habit of the visitor’s languages where they agree', () => {
    expect(readNumber('1,500', ['en-GB', 'ja'])).toEqual(number(1500));
    expect(readNumber('1.500', ['en-GB'])).toEqual(number(1.5));
    expect(readNumber('1,500', ['de', 'fr'])).toEqual(number(1.5));
    expect(readNumber('-1.500', ['de'])).toEqual(number(-1500));
  });

  it('is asked about where they don’t, the first language’s meaning first, or where none has the mark', () => {
    expect(readNumber('1,500', ['de', 'en-GB'])).toEqual(unclear(1.5, 1500));
    expect(readNumber('1,500', ['en-GB', 'de'])).toEqual(unclear(1500, 1.5));
    expect(readNumber('1.500', ['de', 'en-GB'])).toEqual(unclear(1500, 1.5));
    expect(readNumber('1,500', [])).toEqual(unclear(1.5, 1500));
    expect(readNumber('1,500', ['de-CH'])).toEqual(unclear(1.5, 1500));
  });

  it('is settled by what the quantity can be, whatever the language', () => {
    const litres = { min: 100, max: 5_000_000 };
    expect(readNumber('40,000', ['de'], litres)).toEqual(number(40_000));
    expect(readNumber('40.000', ['en-GB'], litres)).toEqual(number(40_000));
    expect(readNumber('-1,500', ['de', 'en-GB'], { min: -5, max: 60 })).toEqual(number(-1.5));
    const boron = { min: 0, max: 200 };
    expect(readNumber('1,500', ['en-GB'], boron)).toEqual(number(1.5));
    // Neither is one: then the language says which to complain of.
    expect(readNumber('1,500', ['en-GB'], { min: 4, max: 10 })).toEqual(number(1500));
    expect(readNumber('1,500', ['de', 'en-GB'], { min: 1, max: 2000 })).toEqual(unclear(1.5, 1500));
  });
});

/** Locales of many scripts, marks and ways to group; how they write numbers is CLDR's, by way of `Intl`. */
const LOCALES = [
  'en-GB', 'en-IN', 'en-ZA', 'de', 'de-AT', 'de-CH', 'de-LI', 'fr', 'fr-CH', 'it', 'it-CH', 'es', 'es-MX', 'pt', 'pt-PT',
  'nl', 'da', 'sv', 'nb', 'fi', 'et', 'lv', 'lt', 'pl', 'cs', 'sk', 'hu', 'ro', 'bg', 'hr', 'sl', 'sr', 'ru', 'uk', 'el',
  'tr', 'az', 'ka', 'hy', 'he', 'ar', 'ar-EG', 'ar-MA', 'fa', 'ps', 'ur', 'ckb', 'hi', 'bn', 'mr', 'ne', 'ta', 'te', 'kn',
  'gu', 'pa', 'as', 'dz', 'my', 'km', 'lo', 'th', 'th-u-nu-thai', 'hi-u-nu-deva', 'ta-u-nu-tamldec', 'vi', 'id', 'ms',
  'zh', 'zh-u-nu-fullwide', 'ja', 'ja-u-nu-fullwide', 'ko', 'sw', 'am', 'ff-Adlm', 'gsw', 'rm', 'ga', 'cy', 'is', 'eu',
  'ca', 'gl', 'af', 'zu',
]; // prettier-ignore

const anyNumber = fc.oneof(
  fc.integer({ min: -2_000_000, max: 2_000_000 }),
  fc.tuple(fc.integer({ min: -2_000_000, max: 2_000_000 }), fc.constantFrom(10, 100, 1000)).map(([n, by]) => n / by),
);

describe('what `Intl` writes in a language', () => {
  it('is read back in it', () => {
    fc.assert(
      fc.property(fc.constantFrom(...LOCALES), anyNumber, fc.boolean(), (locale, value, useGrouping) => {
        const text = new Intl.NumberFormat(locale, { maximumFractionDigits: 3, useGrouping }).format(value);
        expect(readNumber(text, [locale]), `${text} in ${locale}`).toEqual(number(value + 0));
      }),
      { seed: 18, numRuns: 4000 },
    );
  });

  it('is never read as another number on a page in English: it is asked about', () => {
    let asked = 0;
    fc.assert(
      fc.property(fc.constantFrom(...LOCALES), anyNumber, (locale, value) => {
        const text = new Intl.NumberFormat(locale, { maximumFractionDigits: 3 }).format(value);
        const read = readNumber(text, [locale, 'en-GB']);
        if (read.kind === 'unclear') asked += 1;
        expect(read.kind === 'unclear' ? read.values[0] : read, text).toEqual(
          read.kind === 'unclear' ? value : number(value + 0),
        );
      }),
      { seed: 19, numRuns: 4000 },
    );
    expect(asked).toBeGreaterThan(100);
  });

  it('covers every script of digits and every mark', () => {
    const all = LOCALES.map((locale) => new Intl.NumberFormat(locale).format(1_234_567.8)).join('');
    expect(new Set(all.replace(/\p{Nd}/gu, '')).size).toBeGreaterThan(6);
    expect(new Set([...all].filter((c) => /\p{Nd}/u.test(c))).size).toBeGreaterThan(80);
  });
});

it('writes a field so that every language reads it as itself', () => {
  expect([1.234, 0.125, 40_000, 7.4, -2.125, 1234.567].map((value) => fieldNumber(value))).toEqual([
    '1.2340',
    '0.125',
    '40000',
    '7.4',
    '-2.1250',
    '1234.57',
  ]);
  fc.assert(
    fc.property(fc.constantFrom(...LOCALES), anyNumber, (locale, value) => {
      expect(readNumber(fieldNumber(value, 10), [locale, 'en-GB'])).toEqual(number(value + 0));
    }),
    { seed: 20, numRuns: 2000 },
  );
});
