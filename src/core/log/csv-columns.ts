/** The columns of the logbook as a table: one row a value, units in the header. */
import { markText, unmarkText } from './csv.ts';
import type { Word } from '../reading/reading.ts';
import { type PadQuantity, unitOf } from '../measurement/quantities.ts';
import type { Entry, LoggedValue, Pool } from './schema.ts';
import { isoLocal } from './time.ts';

/** What people read in the table. */
export interface TableWords {
  /** A sentence for the reader of the file; it stands in the first row, in the column of the notes. */
  readonly about: string;
  readonly judgement: (said: Pick<LoggedValue, 'otherWord' | 'isSure'> & { readonly word: Word }) => string;
}

/** What one row is about: a value of a reading, a pad that matched nothing, or an entry that has neither. */
export interface Row {
  readonly entry: Entry;
  readonly value: LoggedValue | null;
  readonly unmatched: PadQuantity | null;
  readonly poolName: string;
  readonly words: TableWords;
}

export interface Column {
  /** The header without the unit; files are read by this. */
  readonly name: string;
  readonly unit?: string;
  readonly of: (row: Row) => string | number | null;
  readonly ofPool?: (pool: Pool) => string | number | null;
  /** Text that came from a person or a file, and is marked against formulas. */
  readonly free?: true;
}

const VALUE_UNIT = 'in the unit';

const kindOf =
  <Kind extends Entry['kind']>(
    kind: Kind,
    of: (entry: Extract<Entry, { kind: Kind }>) => string | number | null | undefined,
  ) =>
  ({ entry }: Row): string | number | null =>
    entry.kind === kind ? (of(entry as Extract<Entry, { kind: Kind }>) ?? null) : null;

export const COLUMNS: readonly Column[] = [
  { name: 'record', of: ({ entry }) => entry.kind, ofPool: () => 'pool' },
  {
    name: 'time',
    unit: 'ISO 8601',
    of: ({ entry }) => isoLocal(entry.time, entry.zoneMinutes),
    ofPool: ({ edited }) => edited,
  },
  { name: 'pool', of: ({ poolName }) => poolName, ofPool: ({ name }) => name, free: true },
  { name: 'parameter', of: ({ value, unmatched }) => value?.quantity ?? unmatched },
  { name: 'value', unit: VALUE_UNIT, of: ({ value }) => value?.value ?? null },
  { name: 'unit', of: ({ value }) => value && unitOf(value.quantity) },
  { name: 'low', unit: VALUE_UNIT, of: ({ value }) => value?.low ?? null },
  { name: 'high', unit: VALUE_UNIT, of: ({ value }) => value?.high ?? null },
  { name: 'measured by', of: ({ value }) => value?.method ?? null },
  { name: 'word', of: ({ value, unmatched }) => (unmatched ? 'unmatched' : (value?.word ?? null)) },
  { name: 'other word', of: ({ value }) => value?.otherWord ?? null },
  { name: 'sure', of: ({ value }) => (typeof value?.isSure === 'boolean' ? (value.isSure ? 'yes' : 'no') : null) },
  /** For people: nothing reads it back. */
  { name: 'in words', of: inWords },
  { name: 'off scale', of: ({ value }) => value?.offScale ?? null },
  { name: 'open', of: ({ value }) => value && openEnds(value) },
  { name: 'other value', unit: VALUE_UNIT, of: ({ value }) => value?.alternative?.value ?? null },
  { name: 'other low', unit: VALUE_UNIT, of: ({ value }) => value?.alternative?.low ?? null },
  { name: 'other high', unit: VALUE_UNIT, of: ({ value }) => value?.alternative?.high ?? null },
  { name: 'strip scale', of: kindOf('reading', ({ scale }) => scale?.name), free: true },
  { name: 'strip scale id', of: kindOf('reading', ({ scale }) => scale?.id), free: true },
  { name: 'strip scale from', of: kindOf('reading', ({ scale }) => scale?.origin) },
  { name: 'correction', of: kindOf('reading', ({ correction }) => correction) },
  { name: 'since dip', unit: 's', of: kindOf('reading', ({ sinceDipSeconds }) => sinceDipSeconds) },
  { name: 'warnings', of: kindOf('reading', ({ warnings }) => warnings.join(' ')) },
  { name: 'greys misfit', unit: 'CIEDE2000', of: kindOf('reading', ({ quality }) => quality?.neutralResidual) },
  { name: 'light change', unit: '%', of: kindOf('reading', ({ quality }) => quality?.shadingPercent) },
  { name: 'marks misfit', unit: 'mm', of: kindOf('reading', ({ quality }) => quality?.marksResidualMm) },
  { name: 'product', of: kindOf('addition', ({ product }) => product), free: true },
  { name: 'agent', of: kindOf('addition', ({ agent }) => agent) },
  { name: 'amount', unit: 'in the amount unit', of: kindOf('addition', ({ amount }) => amount) },
  { name: 'amount unit', of: kindOf('addition', ({ unit }) => unit) },
  { name: 'product id', of: kindOf('addition', ({ productId }) => productId) },
  { name: 'product strength', unit: '%', of: kindOf('addition', ({ strength }) => strength) },
  { name: 'chlorine added', unit: 'g Cl2', of: kindOf('addition', ({ chlorineGrams }) => chlorineGrams) },
  { name: 'acid added', unit: 'mol', of: kindOf('addition', ({ acidMoles }) => acidMoles) },
  { name: 'air temperature', unit: '°C', of: kindOf('weather', ({ airTemperatureC }) => airTemperatureC) },
  { name: 'sky', of: kindOf('weather', ({ sky }) => sky) },
  { name: 'rain', unit: 'mm', of: kindOf('weather', ({ rainMm }) => rainMm) },
  { name: 'bathers', of: kindOf('weather', ({ bathers }) => bathers) },
  { name: 'note', of: ({ entry }) => entry.note, free: true },
  { name: 'pool volume', unit: 'L', of: () => null, ofPool: ({ volumeLitres }) => volumeLitres },
  {
    name: 'chlorinator',
    unit: 'g/day',
    of: () => null,
    ofPool: ({ chlorinatorGramsPerDay }) => chlorinatorGramsPerDay,
  },
  { name: 'pool details', of: () => null, ofPool: ({ details }) => detailsText(details) },
  { name: 'origin', of: ({ entry }) => ('origin' in entry ? entry.origin : null) },
  { name: 'picture', of: kindOf('reading', ({ pictureId }) => pictureId) },
  { name: 'id', of: ({ entry }) => entry.id, ofPool: ({ id }) => id },
  { name: 'pool id', of: ({ entry }) => entry.poolId, ofPool: ({ id }) => id },
  { name: 'revision', of: ({ entry }) => entry.revision, ofPool: ({ revision }) => revision },
  { name: 'edited', unit: 'ISO 8601', of: ({ entry }) => entry.edited, ofPool: ({ edited }) => edited },
];

function inWords({ value, unmatched, words }: Row): string | null {
  if (unmatched) return words.judgement({ word: 'unmatched', otherWord: null, isSure: true });
  return value?.word ? words.judgement({ ...value, word: value.word }) : null;
}

function openEnds({ openAbove, openBelow }: LoggedValue): string {
  return [openBelow ? 'below' : '', openAbove ? 'above' : ''].filter(Boolean).join(' ');
}

/** For a table: `place=value`, one after the other. */
function detailsText(details: Pool['details']): string {
  return Object.entries(details)
    .map(([at, value]) => `${at}=${value}`)
    .join(' ');
}

export function headerOf({ name, unit }: Column): string {
  return unit === undefined ? name : `${name} (${unit})`;
}

/** The name a header is known by: what stands before the unit. */
export function nameOf(header: string): string {
  return header
    .replace(/\s*\([^)]*\)\s*$/, '')
    .trim()
    .toLowerCase();
}

export function cellOf(column: Column, content: string | number | null): string {
  if (content === null) return '';
  return column.free ? markText(String(content)) : String(content);
}

export function contentOf(cell: string): string {
  return unmarkText(cell);
}
