/** The logbook as a table for any spreadsheet: one row a value, or one row for an entry that has none. */
import { COLUMNS, cellOf, headerOf, type Row, type TableWords } from './csv-columns.ts';
import { writeCsv } from './csv.ts';
import { LOG_VERSION, type LogData } from './schema.ts';

export function writeLogCsv({ pools, entries }: LogData, made: string, words: TableWords): string {
  const names = new Map(pools.map(({ id, name }) => [id, name]));
  const rows = entries.flatMap((entry): Row[] => {
    // Not for a table: the JSON file has them.
    if (entry.kind === 'plan') return [];
    const about = { entry, value: null, unmatched: null, poolName: names.get(entry.poolId) ?? '', words };
    if (entry.kind !== 'reading') return [about];
    const values = entry.values.map((value) => ({ ...about, value }));
    const unmatched = entry.unmatched.map((quantity) => ({ ...about, unmatched: quantity }));
    return values.length + unmatched.length > 0 ? [...values, ...unmatched] : [about];
  });
  return writeCsv([
    COLUMNS.map(headerOf),
    aboutRow(made, words.about),
    ...pools.map((pool) => COLUMNS.map((column) => cellOf(column, column.ofPool?.(pool) ?? null))),
    ...rows.map((row) => COLUMNS.map((column) => cellOf(column, column.of(row)))),
  ]);
}

function aboutRow(made: string, about: string): string[] {
  const cells: Readonly<Record<string, string>> = {
    record: 'about',
    time: made,
    note: about,
    id: `dipwise-logbook-${LOG_VERSION}`,
  };
  return COLUMNS.map((column) => cellOf(column, cells[column.name] ?? null));
}
