import { describe, expect, it } from 'vitest';
import {
  judgementText,
  refusalMessage,
  refusalMessages,
  warningMessage,
  warningMessages,
} from '../../src/words/reading.ts';
import { quantityTitle } from '../../src/words/quantities.ts';
import { PAD_QUANTITIES } from '../../src/core/measurement/quantities.ts';

describe('the sentences of a reading', () => {
  const all = [...refusalMessages(), ...warningMessages()];

  it('say for every code in one sentence what is wrong, and in others what to do', () => {
    expect(all.length).toBeGreaterThan(25);
    for (const { code, wrong, remedy } of all) {
      expect(wrong, code).toMatch(/^[A-Z][^.]*\.$/);
      expect(remedy, code).toMatch(/^[A-Z].*\.$/);
    }
    expect(new Set(all.map(({ wrong }) => wrong)).size).toBe(all.length);
  });

  it('are found by their codes', () => {
    for (const { code, ...message } of refusalMessages()) expect(refusalMessage(code)).toEqual(message);
    for (const { code, ...message } of warningMessages()) expect(warningMessage(code)).toEqual(message);
  });

  it('name every parameter by its own name', () => {
    const names = PAD_QUANTITIES.map(quantityTitle);
    expect(new Set(names).size).toBe(PAD_QUANTITIES.length);
    for (const name of names) expect(name).toMatch(/^(pH|[A-Z][a-z]+( [a-z]+)?)$/);
  });
});

describe('the words beside a value', () => {
  it.each([
    ['low', null, true, 'low'],
    ['high', null, null, 'high'],
    ['low', null, false, 'perhaps low'],
    ['in-range', null, false, 'likely in range'],
    ['in-range', null, true, 'in range'],
    ['in-range', 'high', false, 'in range or high'],
    ['off-scale', null, false, 'perhaps off the scale'],
    ['unmatched', null, true, 'can’t tell'],
  ] as const)('%s, or %j, sure: %j: %s', (word, otherWord, isSure, text) => {
    expect(judgementText({ word, otherWord, isSure })).toBe(text);
  });
});
