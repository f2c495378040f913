/** The explainers as a search sees them: one document for each section. Made at build time, asked in the page. */
import MiniSearch, { type Options } from 'minisearch';
import { plainText } from './plain-text.ts';

export interface SearchDocument {
  /** Address below learn/, with the section's anchor. */
  readonly id: string;
  readonly page: string;
  readonly section: string;
  readonly text: string;
}

const OPTIONS: Options<SearchDocument> = {
  fields: ['page', 'section', 'text'],
  storeFields: ['page', 'section'],
  searchOptions: { boost: { page: 3, section: 2 }, prefix: true, fuzzy: 0.2, combineWith: 'AND' },
};

interface Page {
  readonly id: string;
  readonly title: string;
  readonly summary: string;
  readonly body: string;
  /** The anchors of its second-level headings, in order. */
  readonly anchors: readonly string[];
}

export function searchDocuments({ id, title, summary, body, anchors }: Page): SearchDocument[] {
  const [opening = '', ...sections] = body.split(/^## /m);
  const whole = { id: `${id}/`, page: title, section: '', text: `${summary} ${plainText(opening, '')}` };
  const parts = sections.map((section, i) => {
    const [heading = '', ...rest] = section.split('\n');
    return { id: `${id}/#${anchors[i] ?? ''}`, page: title, section: heading, text: plainText(rest.join('\n'), '') };
  });
  return [whole, ...parts.filter(({ section }) => section !== 'Sources')];
}

export function buildIndex(documents: readonly SearchDocument[]): MiniSearch<SearchDocument> {
  const index = new MiniSearch<SearchDocument>(OPTIONS);
  index.addAll(documents);
  return index;
}

export interface Found {
  readonly id: string;
  readonly page: string;
  readonly section: string;
}

export function openIndex(json: string): (query: string) => Found[] {
  const index = MiniSearch.loadJSON<SearchDocument>(json, OPTIONS);
  return (query) =>
    index
      .search(query)
      .slice(0, 12)
      .map(({ id, page, section }) => ({
        id: String(id),
        page: String(page),
        section: String(section),
      }));
}
