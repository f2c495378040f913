/** iCalendar after RFC 5545: lines folded at 75 octets, text escaped, CRLF throughout. */

export interface CalendarEvent {
  /** Stays the same when the event is written again, so that calendars replace it. */
  readonly uid: string;
  /** ISO 8601, UTC. */
  readonly start: string;
  readonly minutes: number;
  readonly summary: string;
  readonly description: string;
}

/** @param made when the file was written, ISO 8601, UTC */
export function writeCalendar(events: readonly CalendarEvent[], made: string): string {
  const lines = [
    'BEGIN:VCALENDAR',
    'VERSION:2.0',
    'PRODID:-//Dipwise//Logbook//EN',
    'CALSCALE:GREGORIAN',
    'METHOD:PUBLISH',
    ...events.flatMap((event) => eventLines(event, made)),
    'END:VCALENDAR',
  ];
  return lines.map((line) => `${fold(line)}\r\n`).join('');
}

function eventLines({ uid, start, minutes, summary, description }: CalendarEvent, made: string): string[] {
  const end = new Date(Date.parse(start) + minutes * 60_000).toISOString();
  return [
    'BEGIN:VEVENT',
    `UID:${escapeText(uid)}`,
    `DTSTAMP:${utc(made)}`,
    `DTSTART:${utc(start)}`,
    `DTEND:${utc(end)}`,
    `SUMMARY:${escapeText(summary)}`,
    `DESCRIPTION:${escapeText(description)}`,
    'TRANSP:TRANSPARENT',
    'BEGIN:VALARM',
    'ACTION:DISPLAY',
    `DESCRIPTION:${escapeText(summary)}`,
    'TRIGGER:PT0M',
    'END:VALARM',
    'END:VEVENT',
  ];
}

/** 20260714T093000Z */
function utc(iso: string): string {
  return `${iso.slice(0, 19).replace(/[-:]/g, '')}Z`;
}

/** Section 3.3.11. Control characters other than line ends have no place in a TEXT. */
function escapeText(text: string): string {
  return text
    .replace(/\\/g, '\\\\')
    .replace(/;/g, '\\;')
    .replace(/,/g, '\\,')
    .replace(/\r\n?|\n/g, '\\n')
    .replace(/[^\P{Cc}\t]/gu, '');
}

/** Section 3.1: at most 75 octets to a line, never cutting through a character. */
function fold(line: string): string {
  let folded = '';
  let octets = 0;
  for (const character of line) {
    const size = octetsOf(character);
    if (octets + size > 75) {
      folded += '\r\n ';
      octets = 1;
    }
    folded += character;
    octets += size;
  }
  return folded;
}

function octetsOf(character: string): number {
  const code = character.codePointAt(0)!;
  return code < 0x80 ? 1 : code < 0x800 ? 2 : code < 0x10000 ? 3 : 4;
}
