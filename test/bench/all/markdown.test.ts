import { readFileSync } from 'node:fs';
import { format } from 'prettier';
import { describe, expect, it } from 'vitest';
import { BEGIN, END, putBetweenMarks, toMarkdown } from './markdown.ts';

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

describe('the place of the tables', () => {
  const around = `before\n\n${BEGIN}\n\nold\n\n${END}\n\nafter\n`;

  it('is between the marks, and nothing else is touched', () => {
    const once = putBetweenMarks(around, 'new');
    expect(once).toBe(around.replace('old', 'new'));
    expect(putBetweenMarks(once, 'new')).toBe(once);
  });

  it.each([
    ['without marks', 'text'],
    ['with one of them', `${BEGIN} text`],
    ['with both the wrong way round', `${END} ${BEGIN}`],
    ['with one twice', `${around}${BEGIN}`],
  ])('is not guessed %s', (_, text) => {
    expect(() => putBetweenMarks(text, 'new')).toThrow('each once');
  });

  it('is in the file of results', () => {
    expect(() => putBetweenMarks(readFileSync('test/bench/RESULTS.md', 'utf8'), 'new')).not.toThrow();
  });
});
