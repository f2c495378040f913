/** Tables as Markdown, and their place in the file of results. */
import type { Table } from './section.ts';

export const BEGIN = '<!-- bench: begin -->';
export const END = '<!-- bench: end -->';

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
 * @returns the same with what stood between the marks replaced
 * @throws when a mark is missing, stands twice, or they stand the wrong way round
 */
export function putBetweenMarks(text: string, between: string): string {
  const [begin, end] = [text.indexOf(BEGIN), text.indexOf(END)];
  const once = text.lastIndexOf(BEGIN) === begin && text.lastIndexOf(END) === end;
  if (begin < 0 || end < begin || !once) throw new Error(`the results need ${BEGIN} and, after it, ${END}, each once`);
  return `${text.slice(0, begin + BEGIN.length)}\n\n${between.trim()}\n\n${text.slice(end)}`;
}
