import { buildIndex, openIndex, searchDocuments } from '../../../src/components/learn/search.ts';
import { expect, it } from 'vitest';
import { explainers, headings } from '../../content/explainers.ts';

const documents = explainers.flatMap(({ name, front, body }) =>
  searchDocuments({ id: name, title: front.title, summary: front.summary, body, anchors: headings(body) }),
);
const search = openIndex(JSON.stringify(buildIndex(documents)));

it.each([
  ['stabilizer', 'cyanuric-acid'],
  ['hardness', 'total-hardness'],
  ['green water', 'when-something-is-wrong'],
  ['turnover', 'circulation'],
  ['deutan', 'colour-vision'],
  ['chlorinatr', 'salt'],
])('finds %s on the page %s', (query, page) => {
  expect(
    search(query)
      .slice(0, 4)
      .map(({ id }) => id.split('/')[0]),
  ).toContain(page);
});

it('leads to a section, not only to a page', () => {
  expect(search('aeration').some(({ id, section }) => id.startsWith('ph/#') && section === 'What moves it')).toBe(true);
});

it('finds nothing where there is nothing', () => {
  expect(search('xylophone')).toEqual([]);
});
