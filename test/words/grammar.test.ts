import { describe, expect, it } from 'vitest';
import { capitalised, countText, listText, plural } from '../../src/words/grammar.ts';

describe('words that agree', () => {
  it('count', () => {
    expect([0, 1, 2, 2000].map((count) => countText(count, 'block', 'blocks'))).toEqual([
      '0 blocks',
      '1 block',
      '2 blocks',
      '2,000 blocks',
    ]);
    expect([1, 0.5, 3].map((count) => plural(count, 'It is', 'They are'))).toEqual(['It is', 'They are', 'They are']);
  });

  it('list', () => {
    expect(listText([])).toBe('');
    expect(listText(['pH'])).toBe('pH');
    expect(listText(['pH', 'salt'])).toBe('pH and salt');
    expect(listText(['pH', 'salt', 'boron'], 'or')).toBe('pH, salt or boron');
  });

  it('begin a sentence, pH as it is written', () => {
    expect(['salt is low', 'pH is low', '', '12 g'].map(capitalised)).toEqual(['Salt is low', 'pH is low', '', '12 g']);
  });
});
