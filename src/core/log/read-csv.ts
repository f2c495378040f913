/** Reads the logbook's own tables, tables of others that have the columns `time` and `parameter`, and ordinary ones. */
import { completed, type Given } from '../measurement/measurement.ts';
import { METHODS } from '../measurement/methods.ts';
import { QUANTITY_IDS, type QuantityId, unitOf } from '../measurement/quantities.ts';
import { contentOf, nameOf } from './csv-columns.ts';
import { Pools } from './csv-pools.ts';
import { type CsvRecord, readCsv } from './csv.ts';
import { type FileProblem, type PlaceInFile, type ReadFile, sift } from './incoming.ts';
import { type Entry, entrySchema, LOG_VERSION, type Pool, poolSchema } from './schema.ts';
import { cleanText } from '../text.ts';
import { parseIso } from './time.ts';
import { isWideTable, readWideTable, type TableChoice } from './wide-table.ts';

export interface CsvContext {
  /** Makes an id for what has none. */
  readonly newId: () => string;
  /** ISO 8601, UTC. */
  readonly now: string;
  /** For times without an offset. */
  readonly zoneMinutes: number;
  /** For rows that name no pool. */
  readonly poolId: string;
  /** Pools there are already: a table that gives a name only means one of them. */
  readonly pools: readonly Pool[];
  /** The visitor's languages, for tables that were made by hand. */
  readonly locales?: readonly string[];
  /** What the columns of such a table hold, where the visitor has said so. */
  readonly table?: TableChoice | undefined;
}

type Cells = (name: string) => string;

export function readLogCsv(text: string, context: CsvContext): ReadFile {
  const [header, ...records] = readCsv(text);
  if (!header) return { ok: false, failure: 'empty' };
  const names = header.fields.map(nameOf);
  const isLong = names.includes('record') || names.includes('parameter');
  if (!isLong && (context.table || isWideTable(header.fields))) return wideTable(header.fields, records, context);
  if (!names.includes('time') || !isLong) {
    return { ok: false, failure: 'not-a-logbook' };
  }
  const rows = records.map(({ line, fields }) => ({ line, cells: cellsOf(names, fields) }));
  const version = rows.find(({ cells }) => cells('record') === 'about')?.cells('id');
  const newer = version !== undefined && Number(/^dipwise-logbook-(\d{1,9})$/.exec(version)?.[1]) > LOG_VERSION;
  if (newer) return { ok: false, failure: 'newer-version' };
  return { ok: true, ...collect(rows, new Pools(context), context) };
}

function wideTable(headers: readonly string[], records: readonly CsvRecord[], context: CsvContext): ReadFile {
  const { table: choice, locales = [], ...rest } = context;
  const { raw, lines, problems, table } = readWideTable(headers, records, { ...rest, locales, choice });
  const sifted = sift<Entry>(entrySchema, raw, (index) => ({ what: 'line', at: lines[index]! }));
  const incoming = { pools: [], entries: sifted.good, scales: [], pictures: [], choices: [] };
  return { ok: true, incoming, problems: [...problems, ...sifted.problems], table };
}

function cellsOf(names: readonly string[], fields: readonly string[]): Cells {
  const cells = new Map(names.map((name, i) => [name, contentOf(fields[i] ?? '')]));
  return (name) => cells.get(name) ?? '';
}

interface TableRow {
  readonly line: number;
  readonly cells: Cells;
}

function collect(rows: readonly TableRow[], pools: Pools, context: CsvContext) {
  const problems: FileProblem[] = [];
  const groups: TableRow[][] = [];
  const latest = new Map<string, TableRow[]>();
  const poolRows: TableRow[] = [];
  for (const row of rows) {
    const record = row.cells('record');
    if (record === 'about') continue;
    if (record === 'pool') poolRows.push(row);
    else {
      const id = row.cells('id');
      const key = JSON.stringify(id === '' ? [record, row.cells('time'), row.cells('pool')] : [id]);
      const group = latest.get(key);
      if (group && (record === '' || record === 'reading') && !isSaidIn(group, row)) group.push(row);
      else {
        const begun = [row];
        groups.push(begun);
        latest.set(key, begun);
      }
    }
  }
  const siftedPools = sift(
    poolSchema,
    poolRows.map(({ cells }) => poolOf(cells, context)),
    at(poolRows),
  );
  siftedPools.good.forEach((pool) => pools.add(pool));
  for (const group of groups) problems.push(...withoutUnknown(group));
  const firsts = groups.map((group) => group[0]!);
  const raw = groups.map((group) => entryOf(group, pools, context));
  const sifted = sift<Entry>(entrySchema, raw, at(firsts));
  problems.push(...siftedPools.problems, ...sifted.problems);
  return { incoming: { pools: pools.found, entries: sifted.good, scales: [], pictures: [], choices: [] }, problems };
}

/** Takes out of a reading's rows those of parameters that nobody knows: the rest of the reading can be used. */
function withoutUnknown(group: TableRow[]): FileProblem[] {
  const isUnknown = ({ cells }: TableRow) =>
    cells('parameter') !== '' && !QUANTITY_IDS.some((id) => id === quantityOf(cells('parameter')));
  const unknown = group.filter(isUnknown);
  if (unknown.length === group.length) return [];
  group.splice(0, group.length, ...group.filter((row) => !isUnknown(row)));
  return unknown.map(({ line, cells }) => ({
    where: { what: 'line', at: line },
    fault: { path: [], code: 'unknown-parameter', facts: { text: cells('parameter') } },
  }));
}

/** Without an id, the same quantity measured the same way once more is another reading of that time. */
function isSaidIn(group: readonly TableRow[], { cells }: TableRow): boolean {
  const same = (name: string) => (other: TableRow) => other.cells(name) === cells(name);
  return cells('id') === '' && group.filter(same('parameter')).some(same('measured by'));
}

function at(rows: readonly TableRow[]): (index: number) => PlaceInFile {
  return (index) => ({ what: 'line', at: rows[index]!.line });
}

function poolOf(cells: Cells, { newId, now }: CsvContext): unknown {
  return {
    id: cells('id') || newId(),
    name: cleanText(cells('pool'), 120),
    revision: numberOf(cells('revision')) ?? 1,
    edited: parseIso(cells('edited'), 0)?.utc ?? now,
    volumeLitres: numberOf(cells('pool volume')),
    chlorinatorGramsPerDay: numberOf(cells('chlorinator')),
    details: detailsFrom(cells('pool details')),
  };
}

/** What isn't sound is left for the schema to find. */
function detailsFrom(text: string): Record<string, unknown> {
  const parts = text.split(' ').filter((part) => part !== '');
  return Object.fromEntries(
    parts.map((part) => {
      const at = part.indexOf('=');
      const value = part.slice(at + 1);
      return [part.slice(0, Math.max(0, at)), value === '' || Number.isNaN(Number(value)) ? value : Number(value)];
    }),
  );
}

function entryOf(group: readonly TableRow[], pools: Pools, context: CsvContext): unknown {
  const { cells } = group[0]!;
  const when = parseIso(cells('time'), context.zoneMinutes);
  const common = {
    kind: cells('record') || 'reading',
    id: cells('id') || context.newId(),
    poolId: pools.idOf(cells),
    revision: numberOf(cells('revision')) ?? 1,
    edited: parseIso(cells('edited'), 0)?.utc ?? context.now,
    time: when?.utc ?? cells('time'),
    zoneMinutes: when?.zoneMinutes ?? 0,
    note: cleanText(cells('note'), 2000),
  };
  return { ...common, ...fieldsOf(common.kind, group) };
}

function fieldsOf(kind: string, group: readonly TableRow[]): object {
  const { cells } = group[0]!;
  switch (kind) {
    case 'reading':
      return readingOf(group);
    case 'addition':
      return {
        origin: cells('origin') || 'typed',
        product: cleanText(cells('product'), 120),
        agent: cells('agent') || 'other',
        amount: numberOf(cells('amount')),
        unit: cells('amount unit'),
        productId: cells('product id') || null,
        strength: numberOf(cells('product strength')),
        chlorineGrams: numberOf(cells('chlorine added')),
        acidMoles: numberOf(cells('acid added')),
      };
    case 'weather':
      return {
        airTemperatureC: numberOf(cells('air temperature')),
        sky: cells('sky') || null,
        rainMm: numberOf(cells('rain')),
        bathers: numberOf(cells('bathers')),
      };
    default:
      return {};
  }
}

function readingOf(group: readonly TableRow[]): object {
  const { cells } = group[0]!;
  const named = group.filter((row) => row.cells('parameter') !== '');
  const scaleName = cleanText(cells('strip scale'), 120);
  const origin = cells('strip scale from') || null;
  const quality = ['greys misfit', 'light change', 'marks misfit'].map((name) => numberOf(cells(name)));
  const [neutralResidual, shadingPercent, marksResidualMm] = quality;
  return {
    origin: cells('origin') || 'typed',
    values: [...named.filter(isMatched).flatMap((row) => valuesOf(row.cells)), ...temperatureOf(cells)],
    unmatched: named.filter((row) => !isMatched(row)).map((row) => quantityOf(row.cells('parameter'))),
    scale: scaleName === '' ? null : { id: cells('strip scale id'), name: scaleName, origin },
    correction: cells('correction') || null,
    sinceDipSeconds: numberOf(cells('since dip')),
    warnings: cells('warnings').split(' ').filter(Boolean),
    quality: quality.includes(null) ? null : { neutralResidual, shadingPercent, marksResidualMm },
    pictureId: cells('picture') || null,
  };
}

/** A pad that matched nothing has a row, and no value in it. */
function isMatched({ cells }: TableRow): boolean {
  return ['value', 'photo value', 'value by hand'].some((name) => cells(name) !== '') || cells('word') !== 'unmatched';
}

/** Up to version 4 a value by hand stood in the row of the photo's: two measurements. */
function valuesOf(cells: Cells): unknown[] {
  const byPhoto = estimateOf(cells, 'photo value', 'low', 'high');
  const byHand = numberOf(cells('value by hand'));
  if (byPhoto === null && byHand === null) return [valueOf(cells, numberOf(cells('value')), 'unsaid')];
  const photo = byPhoto === null ? [] : [valueOf(cells, byPhoto.value, 'photo')];
  if (byHand === null) return photo;
  const said = saidIn(cells);
  const nothing = Object.fromEntries(Object.keys(said).map((key) => [key, null]));
  return [
    ...photo.map((value) => ({ ...value, ...nothing })),
    { ...valueOf(() => '', byHand, 'unsaid', cells('parameter'), cells('unit')), ...said, isSure: null },
  ];
}

function valueOf(
  cells: Cells,
  value: number | null,
  usual: 'photo' | 'unsaid',
  parameter = cells('parameter'),
  unit = cells('unit'),
): object {
  const quantity = quantityOf(parameter);
  const known = QUANTITY_IDS.find((id) => id === quantity);
  // Left as it is, for the schema to say that it can't be used.
  if (!known || value === null || (unit !== '' && unit !== unitOf(known)))
    return { quantity: unit === '' ? quantity : `${quantity} in ${unit}`, value };
  const given = {
    value,
    low: numberOf(cells('low')) ?? undefined,
    high: numberOf(cells('high')) ?? undefined,
    alternative: estimateOf(cells, 'other value', 'other low', 'other high'),
    offScale: cells('off scale') || null,
    openBelow: cells('open').includes('below'),
    openAbove: cells('open').includes('above'),
    method: METHODS.find((method) => method === cells('measured by')) ?? usual,
  } as Given;
  return { ...completed(known, given), ...saidIn(cells) };
}

function saidIn(cells: Cells): object {
  const word = cells('word');
  return {
    // Said of the pad, where a value by hand stands in its place.
    word: word === '' || word === 'unmatched' ? null : word,
    otherWord: cells('other word') || null,
    isSure: cells('sure') === '' ? null : cells('sure') === 'yes',
  };
}

/** Up to version 4 the water's temperature had a column of its own. */
function temperatureOf(cells: Cells): object[] {
  const celsius = numberOf(cells('water temperature'));
  if (celsius === null) return [];
  return [valueOf((name) => (name === 'measured by' ? 'meter' : ''), celsius, 'unsaid', 'temperature')];
}

/** 'Free chlorine' and 'free_chlorine' mean 'free-chlorine'. */
function quantityOf(text: string): QuantityId | string {
  const id = text
    .trim()
    .toLowerCase()
    .replace(/[\s_]+/g, '-');
  return QUANTITY_IDS.find((known) => known === id) ?? text;
}

function estimateOf(cells: Cells, value: string, low: string, high: string): { readonly value: number } | null {
  const best = numberOf(cells(value));
  return best === null ? null : { value: best, ...{ low: numberOf(cells(low)), high: numberOf(cells(high)) } };
}

/** A number with a decimal point or comma; null for an empty cell, NaN for what is no number, which no schema takes. */
function numberOf(cell: string): number | null {
  const text = cell.trim();
  if (text === '') return null;
  return /^[+-]?(\d+([.,]\d*)?|[.,]\d+)(e[+-]?\d{1,3})?$/i.test(text) ? Number(text.replace(',', '.')) : NaN;
}
