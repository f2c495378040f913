import { describe, expect, it } from 'vitest';
import { cleanText, isCleanText } from '../../../src/core/text.ts';
import { type Entry, newestFirst } from '../../../src/core/log/schema.ts';
import { daysBefore, isoLocal, parseIso } from '../../../src/core/log/time.ts';

describe('times', () => {
  it('writes the offset of the place', () => {
    expect(isoLocal('2026-07-14T09:30:00.000Z', 120)).toBe('2026-07-14T11:30:00.000+02:00');
    expect(isoLocal('2026-07-14T01:30:00.000Z', -210)).toBe('2026-07-13T22:00:00.000-03:30');
    expect(isoLocal('2026-07-14T01:30:00.000Z', 0)).toBe('2026-07-14T01:30:00.000+00:00');
  });

  /* Equivalent forms of one instant, after ISO 8601 and RFC 3339, section 5.8. */
  it.each([
    ['1990-12-31T23:59:50Z', '1990-12-31T23:59:50.000Z', 0],
    ['1985-04-12T23:20:50.52Z', '1985-04-12T23:20:50.520Z', 0],
    ['1996-12-19T16:39:57-08:00', '1996-12-20T00:39:57.000Z', -480],
    ['1937-01-01T12:00:27.87+00:20', '1937-01-01T11:40:27.870Z', 20],
    ['2026-07-14 11:30', '2026-07-14T09:30:00.000Z', 120],
    ['2026-07-14', '2026-07-14T10:00:00.000Z', 120],
    ['2026-07-14T11:30+0530', '2026-07-14T06:00:00.000Z', 330],
  ])('reads %s', (text, utc, zoneMinutes) => {
    expect(parseIso(text, 120)).toEqual({ utc, zoneMinutes });
  });

  it.each([
    '',
    'today',
    '2026-02-29',
    '2026-13-01',
    '2026-07-14T24:01Z',
    '2026-07-14T10:60Z',
    '14.07.2026',
    'on 2026-07-14',
    '2026-07-14 or so',
    '2026-07-14T10:00+99:00',
  ])('refuses %j', (text) => {
    expect(parseIso(text, 0)).toBeNull();
  });
});

describe('the order of entries', () => {
  it('has the newest first, and equal times by their ids, however they came', () => {
    const entries = [
      { id: 'aaaa', time: '2026-07-14T09:30:00.000Z' },
      { id: 'cccc', time: '2026-07-15T09:30:00.000Z' },
      { id: 'bbbb', time: '2026-07-14T09:30:00.000Z' },
    ] as Entry[];
    const ids = (all: Entry[]) => all.toSorted(newestFirst).map(({ id }) => id);
    expect(ids(entries)).toEqual(['cccc', 'bbbb', 'aaaa']);
    expect(ids(entries.toReversed())).toEqual(['cccc', 'bbbb', 'aaaa']);
    expect(newestFirst(entries[0]!, { ...entries[0]! })).toBe(0);
  });

  it('counts days back over the end of a month', () => {
    expect(daysBefore('2026-07-01T09:30:00.000Z', 2)).toBe('2026-06-29T09:30:00.000Z');
  });
});

describe('text', () => {
  it('keeps line feeds and every script, and drops what no file can carry', () => {
    expect(cleanText('a\r\nb\tc\u0000\u001b\ud800 水🏊', 100)).toBe('a\nb c 水🏊');
    expect(isCleanText('a\nb 水🏊')).toBe(true);
    for (const text of ['\r', '\t', '\u0000', '\u0085', '\ud83c', '\uffff']) expect(isCleanText(text)).toBe(false);
  });

  it('cuts between characters', () => {
    expect(cleanText('🏊🏊', 3)).toBe('🏊');
    expect(cleanText('🏊🏊', 4)).toBe('🏊🏊');
  });
});
