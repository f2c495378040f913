import dictionary from 'dictionary-en-gb';
import { fleschKincaid } from 'flesch-kincaid';
import nspell from 'nspell';
import { readFileSync } from 'node:fs';
import { syllable } from 'syllable';
import { describe, expect, it } from 'vitest';
import { explainers, headings, plainText } from './explainers.ts';

const words = new Intl.Segmenter('en-GB', { granularity: 'word' });
const sentences = new Intl.Segmenter('en-GB', { granularity: 'sentence' });
const wordsOf = (text: string) => [...words.segment(text)].filter((s) => s.isWordLike).map((s) => s.segment);

/** US school grade by Flesch & Kincaid; each block of the page ends its last sentence. */
function grade(text: string): number {
  const blocks = text.split('\n').filter((block) => wordsOf(block).length > 0);
  const list = wordsOf(text);
  return fleschKincaid({
    sentence: blocks.reduce((n, block) => n + [...sentences.segment(block)].length, 0),
    word: list.length,
    syllable: list.reduce((n, word) => n + syllable(word), 0),
  });
}

const PARAMETER_ORDER = [
  'What it is',
  'The usual range, and whose range it is',
  'When it is low, when it is high',
  'What moves it',
  'How to correct it',
  "What the pad can't tell",
  'The chemistry',
  'Sources',
  'Check yourself',
];

it('finds the explainers', () => {
  expect(explainers.length).toBeGreaterThanOrEqual(18);
  expect(explainers.filter(({ front }) => front.kind === 'parameter').length).toBeGreaterThanOrEqual(9);
});

describe.each(explainers)('$name', ({ front, body }) => {
  const [beforeChemistry = ''] = body.split('## The chemistry');

  it('reads at school grade 9 or below before the chemistry', () => {
    const opening = beforeChemistry.split(/^## /m).slice(0, 3).join('\n');
    expect(grade(`${front.summary}\n${plainText(opening)}`)).toBeLessThanOrEqual(9);
    expect(grade(`${front.summary}\n${plainText(beforeChemistry)}`)).toBeLessThanOrEqual(9);
  });

  it('lists its sources in the order in which the text needs them', () => {
    const needed = [...body.matchAll(/<Ref id="([^"]+)"|<Ranges [^>]*from=\{\[([^\]]*)\]/g)].flatMap(([, id, list]) =>
      id ? [id] : [...(list ?? '').matchAll(/'([^']+)'/g)].map(([, each]) => each ?? ''),
    );
    expect(front.sources).toEqual([...new Set(needed)]);
  });

  it('answers its questions in the agreed order', () => {
    if (front.kind !== 'parameter') return;
    expect(headings(body)).toEqual(PARAMETER_ORDER);
    const [whatItIs = ''] = plainText(body.split('## What it is\n')[1] ?? '').split('\n');
    expect([...sentences.segment(whatItIs)].length).toBe(2);
  });

  it('closes with worked answers', () => {
    if (front.title === 'Glossary') return;
    expect(headings(body).slice(-2)).toEqual(['Sources', 'Check yourself']);
    expect(body.match(/<Check question=/g)?.length ?? 0).toBeGreaterThanOrEqual(1);
  });
});

it('is spelt as the dictionary or the word list has it', () => {
  const spell = nspell({ aff: Buffer.from(dictionary.aff), dic: Buffer.from(dictionary.dic) });
  const own = readFileSync('test/config/words.txt', 'utf8').split('\n');
  spell.personal(own.filter((line) => line && !line.startsWith('#')).join('\n'));
  const text = explainers
    .map(({ front, body }) => [front.title, front.summary, ...front.cautions, plainText(body)].join('\n'))
    .join('\n');
  const known = (word: string) => spell.correct(word) || spell.correct(word.toLowerCase());
  const unknown = wordsOf(text)
    .map((word) => word.replaceAll('’', "'"))
    .filter((word) => !known(word))
    .flatMap((word) => word.split(/[^A-Za-zÀ-ÿ]+/))
    .filter((part) => part.length > 1 && !known(part));
  expect([...new Set(unknown)]).toEqual([]);
});
