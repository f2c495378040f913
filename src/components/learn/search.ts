/** The explainers as a search sees them: one document for each section. Made at build time, asked in the page. */
import MiniSearch, { type Options, type Query, type SearchOptions, type SearchResult } from 'minisearch';
import { plainText } from './plain-text.ts';
import { SAME_AS, SAY_NOTHING } from './search-words.ts';

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
  processTerm: (term) => (SAY_NOTHING.has(term.toLowerCase()) ? null : term.toLowerCase()),
  searchOptions: {
    boost: { page: 3, section: 2 },
    // 'ph' isn't the beginning of a phone.
    prefix: (term) => term.length > 2,
    combineWith: 'AND',
  },
};

/** For a query that finds nothing as it is typed: slips of the keyboard, in words long enough to know them by. */
const SLIPS: SearchOptions = { fuzzy: (term) => (term.length > 5 ? 0.2 : false) };

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
  return (query) => {
    const asked = withSynonyms(query);
    const exact = index.search(asked);
    // A slip is rarely in the first letter: 'turning' isn't meant by 'burning'.
    const found = exact.length > 0 ? exact : index.search(asked, { ...SLIPS, filter: sameFirstLetter });
    const shown = found.map(({ id, page, section }) => ({
      id: String(id),
      page: String(page),
      section: String(section),
    }));
    return atMostEach(shown, 3).slice(0, 12);
  };
}

/** One page doesn't fill the list. */
function atMostEach(found: readonly Found[], count: number): Found[] {
  const seen = new Map<string, number>();
  return found.filter(({ page }) => {
    seen.set(page, (seen.get(page) ?? 0) + 1);
    return seen.get(page)! <= count;
  });
}

/** Each word as it stands or in the explainers' own words; all of them must be found. */
function withSynonyms(query: string): Query {
  const words = query
    .toLowerCase()
    .split(/[\s\p{P}]+/u)
    .filter((word) => word !== '' && !SAY_NOTHING.has(word));
  const phrase = (text: string): Query => ({ combineWith: 'AND', queries: text.split(' ') });
  return {
    queries: words.map((word) => ({ combineWith: 'OR', queries: [word, ...(SAME_AS[word] ?? [])].map(phrase) })),
  };
}

function sameFirstLetter({ terms, queryTerms }: SearchResult): boolean {
  return terms.every((term) => queryTerms.some((asked) => asked[0] === term[0]));
}
