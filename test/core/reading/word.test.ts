import { describe, expect, it } from 'vitest';
import { judge, wordOf } from '../../../src/core/reading/word.ts';

const TARGET = { low: 1, high: 3 };
const PAD = { matched: true, value: 2, low: 1.5, high: 2.5, alternative: null, offScale: null } as const;

describe('the word beside a value', () => {
  it.each([
    [0.99, 'low'],
    [1, 'in-range'],
    [3, 'in-range'],
    [3.01, 'high'],
  ] as const)('%d of 1 to 3: %s', (value, word) => {
    expect(wordOf({ ...PAD, value }, TARGET)).toBe(word);
  });

  it('says first that there is no value, then that it is off the scale, and only then asks for a target', () => {
    expect(wordOf({ ...PAD, matched: false, offScale: 'above' }, null)).toBe('unmatched');
    expect(wordOf({ ...PAD, value: null }, TARGET)).toBe('unmatched');
    expect(wordOf({ ...PAD, offScale: 'below' }, null)).toBe('off-scale');
    expect(wordOf({ ...PAD, offScale: 'above', value: 2 }, TARGET)).toBe('off-scale');
    expect(wordOf(PAD, null)).toBeNull();
  });
});

describe('how sure a word is', () => {
  it('is sure where the whole interval says the same', () => {
    expect(judge(PAD, TARGET)).toEqual({ word: 'in-range', otherWord: null, isSure: true });
    expect(judge({ ...PAD, low: 1, high: 3 }, TARGET)?.isSure).toBe(true);
  });

  it.each([
    [0.9, 2.5],
    [1.5, 3.1],
  ])('is not sure from %d to %d', (low, high) => {
    expect(judge({ ...PAD, low, high }, TARGET)).toEqual({ word: 'in-range', otherWord: null, isSure: false });
  });

  it('names the word of a second value where it is another', () => {
    const high = { value: 5, low: 4.5, high: 6 };
    expect(judge({ ...PAD, alternative: high }, TARGET)).toEqual({
      word: 'in-range',
      otherWord: 'high',
      isSure: false,
    });
    const inside = { value: 2.9, low: 2.8, high: 3 };
    expect(judge({ ...PAD, alternative: inside }, TARGET)).toEqual({
      word: 'in-range',
      otherWord: null,
      isSure: true,
    });
  });

  it.each([
    { value: 2.9, low: 0.5, high: 3 },
    { value: 2.9, low: 2.8, high: 3.2 },
  ])('counts both ends of the second value’s interval: %j', (alternative) => {
    expect(judge({ ...PAD, alternative }, TARGET)).toEqual({ word: 'in-range', otherWord: null, isSure: false });
  });

  it('has nothing to say without a target, unless the pad itself says it', () => {
    expect(judge(PAD, null)).toBeNull();
    expect(judge({ ...PAD, matched: false, value: null, low: null, high: null }, null)).toEqual({
      word: 'unmatched',
      otherWord: null,
      isSure: true,
    });
  });
});
