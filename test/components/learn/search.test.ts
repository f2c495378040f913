import { buildIndex, openIndex, searchDocuments } from '../../../src/components/learn/search.ts';
import { SAME_AS, SAY_NOTHING } from '../../../src/components/learn/search-words.ts';
import { describe, expect, it } from 'vitest';
import { explainers, headings } from '../../content/explainers.ts';

const documents = explainers.flatMap(({ name, front, body }) =>
  searchDocuments({ id: name, title: front.title, summary: front.summary, body, anchors: headings(body) }),
);
const search = openIndex(JSON.stringify(buildIndex(documents)));
const pages = (query: string) =>
  search(query)
    .slice(0, 4)
    .map(({ id }) => id.split('/')[0]);

it.each([
  ['stabilizer', 'cyanuric-acid'],
  ['hardness', 'total-hardness'],
  ['green water', 'green-water'],
  ['turnover', 'circulation'],
  ['deutan', 'colour-vision'],
  ['pH', 'ph'],
])('finds %s on the page %s', (query, page) => {
  expect(pages(query)).toContain(page);
});

describe('what people type', () => {
  it.each([
    ['solar', 'temperature'],
    ['burning eyes', 'when-something-is-wrong'],
    ['my eyes are burning', 'when-something-is-wrong'],
    ['green', 'green-water'],
    ['smell', 'when-something-is-wrong'],
    ['cloudy', 'when-something-is-wrong'],
    ['why is my pool cloudy', 'when-something-is-wrong'],
    ['milky', 'when-something-is-wrong'],
    ['slimy walls', 'when-something-is-wrong'],
    ['chlorine odor', 'total-chlorine'],
    ['shock', 'sayings'],
    ['phosphates', 'sayings'],
    ['CYA', 'cyanuric-acid'],
    ['baking soda', 'total-alkalinity'],
    ['muriatic acid', 'ph'],
    ['winterize', 'opening-and-closing'],
    ['vacation', 'a-season'],
    ['filter pressure', 'filter'],
    ['backwash', 'filter'],
    ['cold water', 'temperature'],
    ['hydrogen', 'chlorinator'],
    ['diarrhea', 'cyanuric-acid'],
  ])('%s leads to %s', (query, page) => {
    expect(pages(query)).toContain(page);
  });

  it.each(Object.keys(SAME_AS))('%s is in words of ours that are there', (typed) => {
    expect(search(typed).length).toBeGreaterThan(0);
    for (const ours of SAME_AS[typed]!) expect(search(ours).length, ours).toBeGreaterThan(0);
    expect(SAY_NOTHING.has(typed)).toBe(false);
  });
});

describe('a word isn’t found inside another', () => {
  const text = new Map(
    documents.map(({ id, page, section, text }) => [id, `${page} ${section} ${text}`.toLowerCase()]),
  );
  it.each(['rust', 'ring', 'lime', 'eye', 'ice', 'iron', 'hot', 'art', 'low'])('%s', (word) => {
    const ours = [word, ...(SAME_AS[word] ?? [])].map((each) => each.split(' ')[0]!);
    for (const { id } of search(word)) {
      const words = text.get(id)!.split(/[^\p{L}\p{N}]+/u);
      expect(words.some((each) => ours.some((one) => each.startsWith(one)))).toBe(true);
    }
  });

  it('rust in trust', () => {
    const trusting = [...text].filter(
      ([, words]) => /trust/.test(words) && !/rust\b|metal|corrod/.test(words.replaceAll('trust', '')),
    );
    expect(trusting.length).toBeGreaterThan(0);
    const found = search('rust').map(({ id }) => id);
    for (const [id] of trusting) expect(found).not.toContain(id);
  });
});

it('forgives a slip of the keyboard in a long word, and only where nothing else fits', () => {
  expect(pages('chlorinatr')).toContain('salt');
  expect(pages('stabilzer')).toContain('cyanuric-acid');
  expect(search('bleech')).not.toEqual([]);
});

it('shows at most three places of a page', () => {
  for (const query of ['chlorine', 'cloudy', 'pump', 'test']) {
    const counts = new Map<string, number>();
    for (const { page } of search(query)) counts.set(page, (counts.get(page) ?? 0) + 1);
    expect(counts.size).toBeGreaterThan(0);
    expect(Math.max(...counts.values())).toBeLessThanOrEqual(3);
  }
});

it('leads to a section, not only to a page', () => {
  expect(search('aeration').some(({ id, section }) => id.startsWith('ph/#') && section === 'What moves it')).toBe(true);
});

it('finds nothing where there is nothing', () => {
  expect(search('xylophone')).toEqual([]);
  expect(search('the')).toEqual([]);
});
