import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { SOURCE_FILES } from './imports.ts';
import { readsAsSentence, sentencesIn } from './sentences.ts';

describe('the core', () => {
  const files = SOURCE_FILES.filter((file) => file.startsWith('src/core/'));

  it('says nothing: codes and data go to `src/words`', () => {
    expect(files.length).toBeGreaterThan(100);
    expect(files.flatMap((file) => sentencesIn(readFileSync(file, 'utf8')).map((text) => `${file}: ${text}`))).toEqual(
      [],
    );
  });
});

describe('a sentence', () => {
  it.each([
    'the scale needs at least one pad',
    'Print at 100 %: the rule measures 50 mm.',
    'Salt is low.',
    "the temperature can't be right",
    'Nobody goes in until free chlorine and pH are back in range.',
  ])('is seen: %s', (text) => expect(readsAsSentence(text)).toBe(true));

  it.each(['free-chlorine', 'since dip', 'strip scale id', 'M 0 0 L 1 1', 'utf-8', 'Rules for the Water of a Pool'])(
    'is not seen where there is none: %s',
    (text) => expect(readsAsSentence(text)).toBe(false),
  );

  it('is found in code, in parts too, but not where a mistake is thrown or a source cited', () => {
    expect(sentencesIn('const a = { message: `it must be at least ${n} and no more` };')).toHaveLength(1);
    expect(sentencesIn("const a = 'this must not be here';")).toHaveLength(1);
    expect(sentencesIn("throw new RangeError('this must not be less than nought');")).toEqual([]);
    expect(sentencesIn("const a = { source: 'Guidelines for the water of pools and the like' };")).toEqual([]);
  });
});
