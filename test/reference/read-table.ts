/** Reads a published table kept as CSV in this folder: '#' lines are notes, the first other line names the columns. */
import { readFileSync } from 'node:fs';

export type Row = Record<string, string>;

export function readTable(file: string): Row[] {
  return tableFrom(readFileSync(new URL(file, import.meta.url), 'utf8'));
}

export function tableFrom(text: string): Row[] {
  const lines = text.split(/\r?\n/).filter((line) => line !== '' && !line.startsWith('#'));
  const [header, ...rows] = lines.map(splitCsvLine);
  return rows.map((cells) => Object.fromEntries(header!.map((name, i) => [name, cells[i] ?? ''])));
}

function splitCsvLine(line: string): string[] {
  return [...line.matchAll(/(?:^|,)(?:"((?:[^"]|"")*)"|([^,]*))/g)].map(([, quoted, plain]) =>
    quoted === undefined ? (plain ?? '') : quoted.replaceAll('""', '"'),
  );
}
