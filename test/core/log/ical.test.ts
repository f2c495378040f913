import fc from 'fast-check';
import ICAL from 'ical.js';
import { describe, expect, it } from 'vitest';
import { type CalendarEvent, writeCalendar } from '../../../src/core/log/ical.ts';
import { isCleanText } from '../../../src/core/text.ts';

const MADE = '2026-07-01T09:30:00.000Z';
const event: CalendarEvent = {
  uid: 'next-test-hillside-pool@dipwise',
  start: '2026-07-14T07:00:00.000Z',
  minutes: 15,
  summary: 'Test the pool: Round pool, hillside garden',
  description: 'Free chlorine will have left its span; see the logbook.',
};

function read(file: string): InstanceType<typeof ICAL.Event>[] {
  const calendar = new ICAL.Component(ICAL.parse(file) as unknown[]);
  return calendar.getAllSubcomponents('vevent').map((component) => new ICAL.Event(component));
}

const text = fc
  .oneof(
    fc.string({ unit: 'grapheme', maxLength: 300 }),
    fc.constantFrom(
      'a;b,c\\n',
      'two\nlines',
      'END:VEVENT\r\nBEGIN:VEVENT',
      '水'.repeat(60),
      '🏊'.repeat(40),
      '"quoted"',
    ),
  )
  .map((value) => value.replace(/\r\n?/g, '\n'))
  .filter(isCleanText);

describe('the calendar file, read back by ical.js', () => {
  it('has the properties that RFC 5545 asks for', () => {
    const file = writeCalendar([event], MADE);
    const calendar = new ICAL.Component(ICAL.parse(file) as unknown[]);
    expect(calendar.getFirstPropertyValue('version')).toBe('2.0');
    expect(calendar.getFirstPropertyValue('prodid')).toBeTruthy();
    const component = calendar.getFirstSubcomponent('vevent')!;
    expect(String(component.getFirstPropertyValue('dtstamp'))).toBe('2026-07-01T09:30:00Z');
    const [back] = read(file);
    expect(back!.uid).toBe(event.uid);
    expect(back!.startDate.toJSDate().toISOString()).toBe(event.start);
    expect(back!.endDate.toJSDate().toISOString()).toBe('2026-07-14T07:15:00.000Z');
    expect(component.getFirstSubcomponent('valarm')!.getFirstPropertyValue('action')).toBe('DISPLAY');
    // A method says that it is a publication and no invitation (RFC 5546, 1.4); the alarm comes as the event begins.
    expect(calendar.getFirstPropertyValue('method')).toBe('PUBLISH');
    expect(String(component.getFirstSubcomponent('valarm')!.getFirstPropertyValue('trigger'))).toBe('PT0S');
  });

  it('folds no sooner than it must, and takes a lone CR for a line end', () => {
    // 'SUMMARY:' and 66 letters are 74 octets; a folded line has its blank and 74 more.
    const lines = (summary: string) => {
      const all = writeCalendar([{ ...event, summary }], MADE).split('\r\n');
      const first = all.findIndex((line) => line.startsWith('SUMMARY'));
      return all.slice(
        first,
        all.findIndex((line) => line.startsWith('DESCRIPTION')),
      );
    };
    expect(lines('x'.repeat(67))).toEqual([`SUMMARY:${'x'.repeat(67)}`]);
    expect(lines('x'.repeat(142))).toEqual([`SUMMARY:${'x'.repeat(67)}`, ` ${'x'.repeat(74)}`, ' x']);
    expect(lines('a\rb\r\nc\nd')).toEqual(['SUMMARY:a\\nb\\nc\\nd']);
  });

  it('brings any text back, one event for one event', () => {
    fc.assert(
      fc.property(text, text, (summary, description) => {
        const events = read(writeCalendar([{ ...event, summary, description }, event], MADE));
        expect(events).toHaveLength(2);
        expect(events[0]!.summary).toBe(summary);
        expect(events[0]!.description).toBe(description);
        expect(events[1]!.summary).toBe(event.summary);
      }),
      { seed: 5545, numRuns: 500 },
    );
  });

  it('keeps every line within 75 octets and ends it with CRLF', () => {
    fc.assert(
      fc.property(text, (summary) => {
        const file = writeCalendar([{ ...event, summary }], MADE);
        expect(file.endsWith('\r\n')).toBe(true);
        expect(file.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
        for (const line of file.split('\r\n')) expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
      }),
      { seed: 75, numRuns: 500 },
    );
  });
});
