/** Tables as Markdown, and their place in the file of results. */
import type { Table } from './section.ts';

/** Each part of the bench has its own place, so that one can be written without the others. */
export const beginOf = (part: string) => `<!-- bench ${part}: begin -->`;
export const endOf = (part: string) => `<!-- bench ${part}: end -->`;

export function toMarkdown({ title, about, head, rows }: Table): string {
  for (const row of rows)
    if (row.length !== head.length)
      throw new Error(`${title}: a row of ${row.length} cells under ${head.length} heads`);
  const width = head.map((_, i) => Math.max(3, ...[head, ...rows].map((row) => escaped(row[i]!).length)));
  const line = (cells: readonly string[]) =>
    `| ${cells.map((cell, i) => escaped(cell).padEnd(width[i]!)).join(' | ')} |`;
  const rule = `| ${width.map((count) => '-'.repeat(count)).join(' | ')} |`;
  return [`### ${title}`, '', about, '', line(head), rule, ...rows.map(line), ''].join('\n');
}

/** A bar would end the cell. */
function escaped(cell: string): string {
  return cell.replaceAll('|', '\\|');
}

/**
 * @param text of the file of results
 * @returns the same with what stood between the part's marks replaced
 * @throws when a mark is missing, stands twice, or they stand the wrong way round
 */
export function putBetweenMarks(text: string, part: string, between: string): string {
  const [beginMark, endMark] = [beginOf(part), endOf(part)];
  const [begin, end] = [text.indexOf(beginMark), text.indexOf(endMark)];
  const once = text.lastIndexOf(beginMark) === begin && text.lastIndexOf(endMark) === end;
  if (begin < 0 || end < begin || !once)
    throw new Error(`the results need ${beginMark} and, after it, ${endMark}, each once`);
  return `${text.slice(0, begin + beginMark.length)}\n\n${between.trim()}\n\n${text.slice(end)}`;
}
