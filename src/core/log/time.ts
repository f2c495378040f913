/** Times as text, and which of them an entry can have. */

/** Nothing was kept here before; a day ahead allows for clocks and zones. */
const FIRST_YEAR = 1990;
export const EARLIEST = `${FIRST_YEAR}-01-01T00:00:00.000Z`;

/** @param now ISO 8601 @returns the last time that an entry can have */
export function latestTime(now: string): string {
  return daysBefore(now, -1);
}

export function isPlausibleTime(time: string, now: string): boolean {
  return time >= EARLIEST && time <= latestTime(now);
}

/** @returns ISO 8601 with the offset of the place: 2026-07-14T11:30:00.000+02:00 */
export function isoLocal(utc: string, zoneMinutes: number): string {
  const local = new Date(Date.parse(utc) + zoneMinutes * 60_000).toISOString().slice(0, -1);
  const size = Math.abs(zoneMinutes);
  const two = (value: number) => String(value).padStart(2, '0');
  return `${local}${zoneMinutes < 0 ? '-' : '+'}${two(Math.floor(size / 60))}:${two(size % 60)}`;
}

const ISO = /^(\d{4})-(\d\d)-(\d\d)(?:[T ](\d\d):(\d\d)(?::(\d\d)(?:[.,](\d{1,9}))?)?)?\s*(Z|[+-]\d\d(?::?\d\d)?)?$/i;

/**
 * Reads ISO 8601 dates and times; without an offset, by the clock of `zoneMinutes`; a date alone is noon.
 * @returns null for anything else, and for days that no calendar has
 */
export function parseIso(text: string, zoneMinutes: number): { utc: string; zoneMinutes: number } | null {
  const match = ISO.exec(text.trim());
  if (!match) return null;
  const [, year, month, day, hour = '12', minute = '00', second = '00', fraction = '0', zone] = match;
  const millis = Math.floor(Number(`0.${fraction}`) * 1000 + 1e-6);
  const parts = [year, Number(month) - 1, day, hour, minute, second].map(Number) as [
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  const local = Date.UTC(...parts, millis);
  const read = new Date(local);
  const same = read.getUTCMonth() === parts[1] && read.getUTCDate() === parts[2];
  if (!same || parts[3] > 23 || parts[4] > 59 || parts[5] > 59 || parts[0] < 1900) return null;
  const offset = zone === undefined ? zoneMinutes : offsetOf(zone);
  if (Math.abs(offset) > 900) return null;
  return { utc: new Date(local - offset * 60_000).toISOString(), zoneMinutes: offset };
}

function offsetOf(zone: string): number {
  if (/z/i.test(zone)) return 0;
  const digits = zone.replace(/\D/g, '');
  const minutes = Number(digits.slice(0, 2)) * 60 + Number(digits.slice(2) || 0);
  return zone.startsWith('-') ? -minutes : minutes;
}

export const DAY_MILLIS = 86_400_000;

export function daysBetween(from: string, to: string): number {
  return (Date.parse(to) - Date.parse(from)) / DAY_MILLIS;
}

/** What the log learns from, and what changed since last time, lies within so many days: older entries tell of another season. */
export const LATELY_DAYS = 120;
/** Alkalinity, stabilizer and salt of older readings tell of another water: the estimate forgets them. */
export const ESTIMATE_DAYS = 400;

export function daysBefore(iso: string, days: number): string {
  return new Date(Date.parse(iso) - days * DAY_MILLIS).toISOString();
}
