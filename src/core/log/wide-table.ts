/** Ordinary tables of readings: a row for each test, a column for each quantity, under whatever names people give them. */
import { completed, type Given } from '../measurement/measurement.ts';
import { type QuantityId, QUANTITY_IDS } from '../measurement/quantities.ts';
import { cleanText } from '../text.ts';
import { readNumber } from '../typed/number.ts';
import { plausibleFor } from '../typed/plausible.ts';
import { convertTemperature } from '../water/units.ts';
import type { CsvRecord } from './csv.ts';
import type { FileProblem } from './incoming.ts';
import { type LoggedValue, NOTHING_SAID, typedFields } from './schema.ts';
import { parseIso } from './time.ts';

/** What a column holds. */
export const MEANINGS = ['none', 'date', 'time', 'note', ...QUANTITY_IDS, 'temperature-f'] as const;
export type Meaning = (typeof MEANINGS)[number];

export interface TableChoice {
  /** Of each column, in their order. */
  readonly meanings: readonly Meaning[];
  /** 03/04 is the fourth of March. */
  readonly monthFirst: boolean;
}

/** What a table was taken for, so that it can be looked over and changed. */
export interface TableFound extends TableChoice {
  readonly headers: readonly string[];
  /** Every date with two numbers before its year could be read either way. */
  readonly isOrderOpen: boolean;
}

export interface TableContext {
  readonly newId: () => string;
  readonly now: string;
  readonly zoneMinutes: number;
  readonly poolId: string;
  /** BCP 47 tags of the visitor's languages: how they write numbers, and dates where the table doesn't tell. */
  readonly locales: readonly string[];
  /** Chosen by the visitor; left out: as the table's headers and dates suggest. */
  readonly choice?: TableChoice | undefined;
}

/** Short forms of the trade and of everyday, without blanks and marks; whole words count wherever they stand. */
const NAMES: readonly (readonly [Exclude<Meaning, 'none'>, readonly string[]])[] = [
  ['date', ['date', 'day', 'when', 'datetime', 'timestamp', 'testdate', 'testedon']],
  ['time', ['time', 'hour', 'clock']],
  ['note', ['note', 'notes', 'comment', 'comments', 'remark', 'remarks']],
  ['free-chlorine', ['freechlorine', 'fc', 'fcl', 'freecl', 'chlorine', 'freeavailablechlorine', 'fac', 'sanitizer']],
  ['total-chlorine', ['totalchlorine', 'tc', 'tcl', 'totalcl']],
  ['ph', ['ph', 'phvalue']],
  ['total-alkalinity', ['totalalkalinity', 'alkalinity', 'ta', 'alk', 'talk', 'totalalk']],
  ['calcium-hardness', ['calciumhardness', 'ch', 'calcium', 'cal']],
  ['total-hardness', ['totalhardness', 'hardness', 'th']],
  ['cyanuric-acid', ['cyanuricacid', 'cya', 'stabilizer', 'stabiliser', 'conditioner']],
  ['salt', ['salt', 'saltlevel', 'nacl', 'salinity']],
  ['boron', ['boron', 'borate', 'borates']],
  ['temperature', ['temperature', 'watertemperature', 'temp', 'watertemp', 'tempc']],
];

/** By the header alone, its unit in brackets aside; each meaning is given once, to the first column that asks for it. */
export function guessMeanings(headers: readonly string[]): Meaning[] {
  const taken = new Set<Meaning>();
  return headers.map((header) => {
    const meaning = guess(header);
    if (taken.has(meaning)) return 'none';
    if (meaning !== 'none') taken.add(meaning);
    return meaning;
  });
}

function guess(header: string): Meaning {
  const isFahrenheit = /\bf\b|°\s*f|fahrenheit/i.test(header);
  const name = plain(
    header.replace(/[([].*?[)\]]/g, '').replace(/\b(ppm|mg\/l|deg|fahrenheit|celsius|[cf])\b|°\s*[cf]/gi, ''),
  );
  // 'C' and 'F' belong to short names too.
  const found = NAMES.find(([, names]) => names.includes(name) || names.includes(plain(header)))?.[0] ?? 'none';
  return found === 'temperature' && isFahrenheit ? 'temperature-f' : found;
}

function plain(text: string): string {
  return text
    .normalize('NFKD')
    .toLowerCase()
    .replace(/[^a-z]/g, '');
}

export function isWideTable(headers: readonly string[]): boolean {
  const meanings = guessMeanings(headers);
  return meanings.includes('date') || meanings.includes('time') ? meanings.some(isQuantity) : false;
}

function isQuantity(meaning: Meaning): boolean {
  return meaning !== 'none' && meaning !== 'date' && meaning !== 'time' && meaning !== 'note';
}

/** @returns readings as the schema takes them, with the line of each, and what had to be left out */
export function readWideTable(
  headers: readonly string[],
  records: readonly CsvRecord[],
  context: TableContext,
): { readonly raw: object[]; readonly lines: number[]; readonly problems: FileProblem[]; readonly table: TableFound } {
  const meanings = context.choice?.meanings ?? guessMeanings(headers);
  const order = orderOf(records, meanings, context);
  const monthFirst = context.choice?.monthFirst ?? order.monthFirst;
  const problems: FileProblem[] = [];
  const raw: object[] = [];
  const lines: number[] = [];
  for (const { line, fields } of records) {
    const cell = (meaning: Meaning) => fields[meanings.indexOf(meaning)]?.trim() ?? '';
    const say = (code: string, facts: Record<string, string>) =>
      problems.push({ where: { what: 'line', at: line }, fault: { path: [], code, facts } });
    if (fields.every((field) => field.trim() === '')) continue;
    const when = timeOf(cell('date'), cell('time'), monthFirst, context.zoneMinutes);
    if (!when) {
      say('not-a-date', { text: [cell('date'), cell('time')].filter(Boolean).join(' ') });
      continue;
    }
    const values = meanings.flatMap((meaning, i) => {
      const text = fields[i]?.trim() ?? '';
      if (!isQuantity(meaning) || text === '' || /^[-–—.?]+$|^n\/?a$/i.test(text)) return [];
      const value = valueOf(meaning, text, context.locales);
      if (!value) say('not-a-value', { text, column: headers[i]! });
      return value ?? [];
    });
    const note = cleanText(cell('note'), 2000);
    if (values.length === 0 && note === '') continue;
    lines.push(line);
    raw.push(entryOf(values, note, when, context));
  }
  return { raw, lines, problems, table: { headers, meanings, monthFirst, isOrderOpen: order.isOpen } };
}

function entryOf(
  values: LoggedValue[],
  note: string,
  when: { readonly utc: string; readonly zoneMinutes: number },
  { newId, poolId, now }: TableContext,
): object {
  const common = {
    id: newId(),
    poolId,
    revision: 1,
    edited: now,
    time: when.utc,
    zoneMinutes: when.zoneMinutes,
    note,
  };
  if (values.length === 0) return { kind: 'note', ...common };
  return { ...common, ...typedFields(values) };
}

/** '7.4', '>10', '< 0.5', '80 ppm', '5 +'. Null for what is no number that the quantity can have. */
function valueOf(meaning: Meaning, text: string, locales: readonly string[]): LoggedValue | null {
  const quantity: QuantityId = meaning === 'temperature-f' ? 'temperature' : (meaning as QuantityId);
  const openBelow = /^[<≤]/.test(text);
  const openAbove = /^[>≥]|\+$/.test(text);
  const bare = text.replace(/^[<>≤≥=~≈\s]+/, '').replace(/\s*(\+|ppm|mg\/l|°?\s*[cf])\s*$/i, '');
  const bounds = plausibleFor(quantity);
  const number = readNumber(bare, locales, meaning === 'temperature-f' ? { min: 32, max: 113 } : bounds);
  if (number.kind !== 'number' && number.kind !== 'unclear') return null;
  const typed = number.kind === 'number' ? number.value : number.values[0];
  const value = meaning === 'temperature-f' ? convertTemperature(typed, 'F', 'C') : typed;
  if (!(value >= Math.min(0, bounds.min) && value <= bounds.max)) return null;
  const given: Given = { value, openBelow, openAbove, method: 'unsaid' };
  return { ...completed(quantity, given), ...NOTHING_SAID };
}

/** Two numbers before a year: which comes first is told by one above 12, else by the visitor's language. */
const NUMBERS_FIRST = /^(\d{1,2})[./\- ](\d{1,2})[./\- ](\d{4}|\d{2})\b\.?,?\s*(.*)$/;

function orderOf(
  records: readonly CsvRecord[],
  meanings: readonly Meaning[],
  { locales }: TableContext,
): { readonly monthFirst: boolean; readonly isOpen: boolean } {
  const at = meanings.includes('date') ? meanings.indexOf('date') : meanings.indexOf('time');
  const matches = records
    .map(({ fields }) => NUMBERS_FIRST.exec(fields[at]?.trim() ?? ''))
    .filter((one) => one !== null);
  if (matches.length === 0) return { monthFirst: false, isOpen: false };
  if (matches.some(([, first]) => Number(first) > 12)) return { monthFirst: false, isOpen: false };
  if (matches.some(([, , second]) => Number(second) > 12)) return { monthFirst: true, isOpen: false };
  const parts = new Intl.DateTimeFormat(locales[0]).formatToParts(new Date(0));
  return { monthFirst: parts.find(({ type }) => type === 'month' || type === 'day')?.type === 'month', isOpen: true };
}

function timeOf(date: string, time: string, monthFirst: boolean, zoneMinutes: number) {
  const day = date === '' ? time : date;
  const clock = date === '' ? '' : clockOf(time);
  if (clock === null) return null;
  const iso = /^\d{4}-\d\d-\d\d/.test(day) ? day : isoOf(day, monthFirst);
  if (iso === null) return null;
  const hasClock = /\d[T ]\d/.test(iso);
  return parseIso(hasClock || clock === '' ? iso : `${iso} ${clock}`, zoneMinutes);
}

function isoOf(text: string, monthFirst: boolean): string | null {
  const match = NUMBERS_FIRST.exec(text);
  if (!match) return null;
  const [, first, second, year, rest] = match;
  const [day, month] = monthFirst ? [second!, first!] : [first!, second!];
  const clock = clockOf(rest!);
  if (clock === null) return null;
  const whole = year!.length === 2 ? `20${year}` : year!;
  const iso = `${whole}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`;
  return clock === '' ? iso : `${iso} ${clock}`;
}

/** '9:05', '9:05:30', '9.05', '9 pm', '9:05 PM' as HH:MM; '' for nothing; null for what is no time of day. */
function clockOf(text: string): string | null {
  const said = text.trim();
  if (said === '') return '';
  const match = /^(\d{1,2})(?:[:.h](\d{2}))?(?:[:.]\d{2}(?:\.\d+)?)?\s*([ap]\.?m\.?)?$/i.exec(said);
  if (!match) return null;
  const [, hours, minutes = '00', half] = match;
  const hour = half ? (Number(hours) % 12) + (/^p/i.test(half) ? 12 : 0) : Number(hours);
  if (hour > 23 || Number(minutes) > 59) return null;
  return `${String(hour).padStart(2, '0')}:${minutes}`;
}
