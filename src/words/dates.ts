/** Dates and times as the language of the words writes them. */
import { LANGUAGE } from './grammar.ts';

const formats = new Map<string, Intl.DateTimeFormat>();

/** Making a format takes a hundred times as long as using it. */
export function dateFormat(options: Intl.DateTimeFormatOptions): Intl.DateTimeFormat {
  const key = JSON.stringify(options);
  const format = formats.get(key) ?? new Intl.DateTimeFormat(LANGUAGE, options);
  formats.set(key, format);
  return format;
}

/** 14 July 2026, by the device's own zone. */
export function dateText(iso: string): string {
  return dateFormat({ day: 'numeric', month: 'long', year: 'numeric' }).format(new Date(iso));
}

/** 14 Jul */
export function shortDayText(iso: string): string {
  return dateFormat({ day: 'numeric', month: 'short' }).format(new Date(iso));
}

/** 14:05 */
export function timeText(time: Date): string {
  return dateFormat({ hour: '2-digit', minute: '2-digit' }).format(time);
}

export function monthText(date: Date): string {
  return dateFormat({ month: 'long', year: 'numeric' }).format(date);
}

export function momentText(iso: string): string {
  return dateFormat({ dateStyle: 'long', timeStyle: 'short' }).format(new Date(iso));
}

/** As the clock on the wall showed it where the entry was written. */
export function wallText(utc: string, zoneMinutes: number, options: Intl.DateTimeFormatOptions): string {
  return dateFormat({ ...options, timeZone: 'UTC' }).format(new Date(Date.parse(utc) + zoneMinutes * 60_000));
}
