/**
 * Comma-separated values after RFC 4180: CRLF between records, quotes around fields that need them, quotes doubled.
 * Text that a spreadsheet would take for a formula is marked with a leading apostrophe, after OWASP's page
 * "CSV Injection", and the mark comes off again when the file is read.
 */

/* What a spreadsheet starts a formula with, also as a form of its own in Unicode, also after what can't be seen. */
const UNSEEN = String.raw`[\s\p{Cc}\p{Cf}\p{Default_Ignorable_Code_Point}\p{Mn}\u2800]*`;
const STARTS = String.raw`[=+\-@\uff1d\uff0b\uff0d\uff20\ufe66\ufe62\ufe63\ufe6b\u2212]`;
const FORMULA = new RegExp(`^${UNSEEN}${STARTS}|^[\\t\\r\\n]`, 'u');

function needsMark(text: string): boolean {
  return text.startsWith("'") || FORMULA.test(text);
}

/** For text only: numbers that were written as numbers need no mark. */
export function markText(text: string): string {
  return needsMark(text) ? `'${text}` : text;
}

export function unmarkText(cell: string): string {
  return cell.startsWith("'") && needsMark(cell.slice(1)) ? cell.slice(1) : cell;
}

export function writeCsv(records: readonly (readonly string[])[]): string {
  return records.map(writeRecord).join('');
}

function writeRecord(fields: readonly string[]): string {
  // A lone empty field would look like a blank line.
  return `${fields.length === 1 && fields[0] === '' ? '""' : fields.map(quote).join(',')}\r\n`;
}

function quote(field: string): string {
  return /[",;'\s]/.test(field) ? `"${field.replaceAll('"', '""')}"` : field;
}

/** One record of a file, with the line on which it starts. */
export interface CsvRecord {
  readonly line: number;
  readonly fields: readonly string[];
}

/**
 * Reads what spreadsheets write as well: LF or CR alone between records, a byte-order mark, blank lines, text after a
 * closing quote, semicolons between fields where the comma is the decimal sign. A quote that is never closed ends with
 * the file.
 */
export function readCsv(file: string): CsvRecord[] {
  const text = file.replace(/^\ufeff/, '');
  const separator = separatorOf(text);
  const records: CsvRecord[] = [];
  let line = 1;
  let at = 0;
  while (at < text.length) {
    const start = line;
    const fields: string[] = [];
    let more = true;
    while (more) {
      const field = readField(text, at, separator);
      fields.push(field.value);
      line += field.lines;
      at = field.end + 1;
      more = text[field.end] === separator;
    }
    if (text[at - 1] === '\r' && text[at] === '\n') at += 1;
    line += 1;
    if (fields.length > 1 || fields[0] !== '') records.push({ line: start, fields });
  }
  return records;
}

/** A semicolon where the first line has it and, outside quotes, no comma. */
function separatorOf(text: string): ',' | ';' {
  const header = text.split(/[\r\n]/, 1)[0]!.replace(/"[^"]*("|$)/g, '');
  return header.includes(';') && !header.includes(',') ? ';' : ',';
}

/** A field from `start` to the separator, line end or end of file at `end`. */
function readField(text: string, start: number, separator: string): { value: string; end: number; lines: number } {
  let value = '';
  let lines = 0;
  let at = start;
  if (text[at] === '"') {
    at += 1;
    for (;;) {
      const close = text.indexOf('"', at);
      const part = text.slice(at, close < 0 ? text.length : close);
      lines += part.split(/\r\n|\r|\n/).length - 1;
      value += part;
      at = close < 0 ? text.length : close + 1;
      if (text[at] !== '"') break;
      value += '"';
      at += 1;
    }
  }
  const rest = separator === ',' ? /[,\r\n]/g : /[;\r\n]/g;
  rest.lastIndex = at;
  const end = rest.exec(text)?.index ?? text.length;
  return { value: value + text.slice(at, end), end, lines };
}
