/** What is wrong with a part of the JSON file, and where; the rest of the file is kept. */
import { describe, expect, it } from 'vitest';
import { readLogJson } from '../../../src/core/log/read-json.ts';
import { LOG_VERSION } from '../../../src/core/log/schema.ts';
import { addition, loggedValue, POOL, reading } from './samples.ts';

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
    expect(problems.map(({ where }) => where)).toEqual([
      'pool 2',
      'entry 1',
      'entry 3',
      'scale 1',
      'scale 2',
      'picture 2',
      'choice 3',
    ]);
    // The field comes first, then what is wrong with it; where the whole is wrong there is no field.
    expect(problems[0]!.message).toBe('name: a name is needed');
    expect(problems[1]!.message).toBe('id: an id has 4 to 64 letters, digits and hyphens');
    expect(problems[3]!.message).toMatch(/^[a-z.]+: \S/);
    for (const i of [2, 4]) expect(problems[i]!.message).not.toMatch(/^: /);
  });

  it('is a value outside its interval, or in another’s unit', () => {
    const value = loggedValue('ph', 7.4, 0.2);
    const isKept = (change: object) => read({ entries: [reading(0, [{ ...value, ...change }])] }).entries.length === 1;
    expect(isKept({ photo: { low: 7.4, value: 7.4, high: 7.4 } })).toBe(true);
    expect(isKept({ photo: { low: 7.5, value: 7.4, high: 7.6 } })).toBe(false);
    expect(isKept({ photo: { low: 7.2, value: 7.4, high: 7.3 } })).toBe(false);
    expect(isKept({ alternative: { low: 7.2, value: 7.4, high: 7.3 } })).toBe(false);
    expect(isKept({ unit: 'mg/L' })).toBe(false);
    expect(isKept({ parameter: 'salt' })).toBe(false);
    expect(isKept({ parameter: 'salt', unit: 'mg/L' })).toBe(true);
  });

  it.each(['/9j/A', '/9j', 'x/9j/', '/9j/AA=A', '/9j/====', '/9j/AAA-'])('is a picture of %j', (base64) => {
    const { pictures, problems } = read({ pictures: [{ id: 'abcd-1', type: 'image/jpeg', base64 }] });
    expect({ pictures, where: problems.map(({ where }) => where) }).toEqual({ pictures: [], where: ['picture 1'] });
  });

  it.each(['/9j/', '/9j/AAA=', '/9j/AA=='])('is no picture of %j', (base64) => {
    const [id, type] = ['abcd-1', 'image/jpeg'];
    expect(read({ pictures: [{ id, type, base64 }] })).toMatchObject({ pictures: [{ id, base64 }], problems: [] });
  });
});

describe('an older file', () => {
  const now = { ...loggedValue('ph', 7.4, 0.2), otherWord: null, isSure: null };
  const without = (whole: object, ...keys: string[]) =>
    Object.fromEntries(Object.entries(whole).filter(([key]) => !keys.includes(key)));
  const value3 = without(now, 'otherWord', 'isSure');
  const value2 = without(value3, 'openAbove', 'openBelow');
  const value1 = { ...without(value2, 'photo', 'alternative'), ...now.photo };
  const addition1 = without(addition(0, 'acid'), 'chlorineGrams', 'acidMoles', 'agent');
  const pool1 = without(POOL, 'chlorinatorGramsPerDay');
  const values = (content: object, version: number) =>
    read({ entries: [reading(0, [content as never])] }, version).entries[0];

  it('brings no hedge before version 4, no open ends before 3, no chlorine or acid before 2', () => {
    for (const [version, value] of [value1, value2, value3].entries()) {
      expect(values(value, version + 1)).toMatchObject({ values: [now] });
    }
    expect(values({ ...value1, value: null, low: null, high: null }, 1)).toMatchObject({
      values: [{ photo: null, alternative: null }],
    });
    const old = read({ pools: [pool1], entries: [addition1] }, 1);
    expect(old).toMatchObject({
      pools: [{ chlorinatorGramsPerDay: null }],
      entries: [{ agent: 'other', chlorineGrams: null, acidMoles: null }],
    });
  });

  it('keeps what it had of a later version', () => {
    const kept = { ...loggedValue('ph', 7.4, 0.2), openAbove: true, openBelow: true, otherWord: 'high', isSure: true };
    expect(values(kept, 2)).toMatchObject({ values: [kept] });
    const dosed = addition(0, 'acid', { acidMoles: 3 });
    expect(read({ pools: [{ ...POOL, chlorinatorGramsPerDay: 9 }], entries: [dosed] }, 1)).toMatchObject({
      pools: [{ chlorinatorGramsPerDay: 9 }],
      entries: [dosed],
    });
  });

  it.each([1, 2, 3])('of version %i may hold nonsense anywhere', (version) => {
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
