/** What is wrong with a part of the JSON file, and where; the rest of the file is kept. */
import { describe, expect, it } from 'vitest';
import { readLogJson } from '../../../src/core/log/read-json.ts';
import { LOG_VERSION } from '../../../src/core/log/schema.ts';
import { addition, loggedValue, POOL, reading } from './samples.ts';
import { entryFault } from '../../../src/words/log.ts';

function read(content: object, version = LOG_VERSION) {
  const result = readLogJson(JSON.stringify({ format: 'dipwise-logbook', version, ...content }));
  if (!result.ok) throw new Error(result.failure);
  return { ...result.incoming, problems: result.problems };
}

describe('a file that can’t be read', () => {
  it.each([
    ['', 'empty'],
    [' \n', 'empty'],
    ['\ufeff', 'empty'],
    ['{"format":', 'not-a-logbook'],
    ['{"format":"other"}', 'not-a-logbook'],
  ])('%j is %s', (text, failure) => {
    expect(readLogJson(text)).toEqual({ ok: false, failure });
  });

  it('may begin with a byte-order mark, and hold nothing', () => {
    const text = `\ufeff{"format":"dipwise-logbook","version":${LOG_VERSION}}`;
    const incoming = { pools: [], entries: [], scales: [], pictures: [], choices: [] };
    expect(readLogJson(text)).toEqual({ ok: true, incoming, problems: [] });
  });
});

describe('a part that can’t be used', () => {
  it('is named by its place, counted from one, and the rest is kept', () => {
    const entry = reading(0, []);
    const sound = { key: 'settings.sound', value: 'on' };
    const picture = { id: 'abcd-1', type: 'image/jpeg', base64: '/9j/' };
    const { problems, ...rest } = read({
      pools: [POOL, { ...POOL, name: ' ' }],
      entries: [{ ...entry, id: 'x' }, entry, 'what?'],
      scales: [{ format: 'dipwise-scale' }, null],
      pictures: [picture, { ...picture, id: '?' }],
      choices: [sound, sound, { ...sound, value: 'loud' }],
    });
    expect(rest).toEqual({
      pools: [POOL],
      entries: [entry],
      scales: [],
      pictures: [{ id: 'abcd-1', base64: '/9j/' }],
      choices: [sound, sound],
    });
    expect(problems.map(({ where }) => `${where.what} ${where.at}`)).toEqual([
      'pool 2',
      'entry 1',
      'entry 3',
      'scale 1',
      'scale 2',
      'picture 2',
      'choice 3',
    ]);
    // The field comes first, then what is wrong with it; where the whole is wrong there is no field.
    expect(entryFault(problems[0]!.fault)).toBe('name: a name is needed');
    expect(entryFault(problems[1]!.fault)).toBe('id: it is not what it should be');
    expect(entryFault(problems[3]!.fault)).toMatch(/^[a-z.]+: \S/);
    for (const i of [2, 4]) expect(entryFault(problems[i]!.fault)).not.toMatch(/^: /);
  });

  it('is a value outside its interval, or of no quantity of ours', () => {
    const value = loggedValue('ph', 7.4, 0.2);
    const isKept = (change: object) => read({ entries: [reading(0, [{ ...value, ...change }])] }).entries.length === 1;
    expect(isKept({ low: 7.4, high: 7.4 })).toBe(true);
    expect(isKept({ low: 7.5, high: 7.6 })).toBe(false);
    expect(isKept({ low: 7.2, high: 7.3 })).toBe(false);
    expect(isKept({ alternative: { low: 7.2, value: 7.4, high: 7.3 } })).toBe(false);
    expect(isKept({ quantity: 'mood' })).toBe(false);
    expect(isKept({ method: 'guess' })).toBe(false);
    expect(isKept({ quantity: 'salt' })).toBe(true);
  });

  it.each(['/9j/A', '/9j', 'x/9j/', '/9j/AA=A', '/9j/====', '/9j/AAA-'])('is a picture of %j', (base64) => {
    const { pictures, problems } = read({ pictures: [{ id: 'abcd-1', type: 'image/jpeg', base64 }] });
    expect({ pictures, where: problems.map(({ where }) => `${where.what} ${where.at}`) }).toEqual({
      pictures: [],
      where: ['picture 1'],
    });
  });

  it.each(['/9j/', '/9j/AAA=', '/9j/AA=='])('is no picture of %j', (base64) => {
    const [id, type] = ['abcd-1', 'image/jpeg'];
    expect(read({ pictures: [{ id, type, base64 }] })).toMatchObject({ pictures: [{ id, base64 }], problems: [] });
  });
});

describe('an older file', () => {
  const photo = { value: 7.4, low: 7.2, high: 7.6 };
  const value1 = { parameter: 'ph', unit: 'pH', ...photo, offScale: null, word: 'in-range', byHand: null };
  const value2 = {
    parameter: 'ph',
    unit: 'pH',
    photo,
    alternative: null,
    offScale: null,
    word: 'in-range',
    byHand: null,
  };
  const value3 = { ...value2, openAbove: false, openBelow: false };
  const value4 = { ...value3, otherWord: null, isSure: null };
  const now = { ...loggedValue('ph', 7.4, 0.2), ...photo, isSure: null };
  const without = (whole: object, ...keys: string[]) =>
    Object.fromEntries(Object.entries(whole).filter(([key]) => !keys.includes(key)));
  const reading4 = { ...without(reading(0, []), 'unmatched'), scale: null, waterTemperatureC: null };
  const addition1 = without(addition(0, 'acid'), 'chlorineGrams', 'acidMoles', 'agent');
  const pool1 = without(POOL, 'chlorinatorGramsPerDay');
  const of = (content: object, version: number, change: object = {}) =>
    read({ entries: [{ ...reading4, values: [content], ...change }] }, version).entries[0];

  it('brings no way of measuring before version 5, no hedge before 4, no open ends before 3', () => {
    for (const [version, value] of [value1, value2, value3, value4].entries()) {
      expect(of(value, version + 1)).toMatchObject({ values: [now], unmatched: [] });
    }
    expect(of({ ...value1, value: null, low: null, high: null, word: 'unmatched' }, 1)).toMatchObject({
      values: [],
      unmatched: ['ph'],
    });
  });

  it('brings no chlorine or acid before version 2', () => {
    expect(read({ pools: [pool1], entries: [addition1] }, 1)).toMatchObject({
      pools: [{ chlorinatorGramsPerDay: null }],
      entries: [{ agent: 'other', chlorineGrams: null, acidMoles: null }],
    });
  });

  it('has a value by hand beside the photo’s from version 5 on, and the temperature among the values', () => {
    const scale = { id: 'my-strips', name: 'Mine' };
    expect(of({ ...value4, byHand: 7.8, isSure: true }, 4, { waterTemperatureC: 19.5, scale })).toMatchObject({
      values: [
        { ...now, word: null },
        { quantity: 'ph', value: 7.8, low: expect.closeTo(7.5, 9) as number, method: 'unsaid', word: 'in-range' },
        { quantity: 'temperature', value: 19.5, low: 18.5, high: 20.5, method: 'meter' },
      ],
      scale: { ...scale, origin: null },
    });
  });

  it('keeps what it had of a later version', () => {
    const kept = { ...value2, openAbove: true, openBelow: true, otherWord: 'high', isSure: true };
    expect(of(kept, 2)).toMatchObject({
      values: [{ openAbove: true, openBelow: true, otherWord: 'high', isSure: true }],
    });
    expect(of(now, 4)).toMatchObject({ values: [now] });
    const dosed = addition(0, 'acid', { acidMoles: 3 });
    expect(read({ pools: [{ ...POOL, chlorinatorGramsPerDay: 9 }], entries: [dosed] }, 1)).toMatchObject({
      pools: [{ chlorinatorGramsPerDay: 9 }],
      entries: [dosed],
    });
  });

  it.each([1, 2, 3, 4])('of version %i may hold nonsense anywhere', (version) => {
    const entry = reading(0, []);
    const { problems, pools, entries } = read(
      {
        pools: [null, 'x', [POOL]],
        entries: [null, 3, [entry], { ...entry, values: 'none' }, { ...entry, values: [null, 'x', [value1]] }],
      },
      version,
    );
    expect({ pools, entries }).toEqual({ pools: [], entries: [] });
    expect(problems).toHaveLength(8);
  });
});
