import { readFileSync } from 'node:fs';
import { format } from 'prettier';
import { describe, expect, it } from 'vitest';
import { beginOf, endOf, putBetweenMarks, toMarkdown } from './markdown.ts';
import { PARTS } from './parts.ts';

const TABLE = {
  title: 'Some',
  about: 'How.',
  head: ['a', 'much longer'],
  rows: [
    ['one | two', '1'],
    ['b', '–'],
  ],
};

describe('a table as Markdown', () => {
  it('stands as Prettier would have it, so that writing results changes nothing else', async () => {
    const options = JSON.parse(readFileSync('test/config/prettier.json', 'utf8')) as object;
    const text = toMarkdown(TABLE);
    expect(await format(text, { ...options, parser: 'markdown', plugins: [] })).toBe(text);
  });

  it('keeps a bar inside its cell', () => {
    expect(toMarkdown(TABLE)).toContain('one \\| two');
  });

  it('throws at a row that misses a cell', () => {
    expect(() => toMarkdown({ ...TABLE, rows: [['one']] })).toThrow('Some');
  });
});

describe('the place of a part’s tables', () => {
  const [BEGIN, END] = [beginOf('some'), endOf('some')];
  const around = `before\n\n${BEGIN}\n\nold\n\n${END}\n\n${beginOf('other')}\n\n${endOf('other')}\n`;

  it('is between its marks, and nothing else is touched', () => {
    const once = putBetweenMarks(around, 'some', 'new');
    expect(once).toBe(around.replace('old', 'new'));
    expect(putBetweenMarks(once, 'some', 'new')).toBe(once);
  });

  it.each([
    ['without marks', 'text'],
    ['with one of them', `${BEGIN} text`],
    ['with both the wrong way round', `${END} ${BEGIN}`],
    ['with one twice', `${around}${BEGIN}`],
    ['with another part’s', `${beginOf('other')} ${endOf('other')}`],
  ])('is not guessed %s', (_, text) => {
    expect(() => putBetweenMarks(text, 'some', 'new')).toThrow('each once');
  });

  it.each(Object.keys(PARTS))('of %s is in the file of results', (part) => {
    expect(() => putBetweenMarks(readFileSync('test/bench/RESULTS.md', 'utf8'), part, 'new')).not.toThrow();
  });
});
