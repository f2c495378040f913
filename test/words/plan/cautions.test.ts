import { describe, expect, it } from 'vitest';
import { CAUTION_CODES } from '../../../src/core/water/cautions.ts';
import { caution } from '../../../src/words/plan/cautions.ts';

describe('the cautions', () => {
  it.each(CAUTION_CODES)('%s is a sentence with a source or common practice', (code) => {
    const { text, source, status } = caution(code);
    expect(text).toMatch(/^[A-Z].+[.]$/);
    expect(source === '').toBe(status === 'common-practice');
  });

  // What safety authorities ask for (Maryland Department of Health, US EPA alert 550-F-01-003, CDC) must be there.
  it.each([
    ['water onto the product', 'into-water'],
    ['chlorine gas', 'acid-and-chlorine'],
    ['burn or explode', 'stabilised-and-hypochlorite'],
    ['dry', 'keep-dry'],
    ['goggles and gloves', 'protection'],
    ['bottom is not clearly visible', 'see-the-bottom'],
    ['storm drain', 'discharge-permission'],
    ['residual-current device', 'electricity'],
    ['ground-water', 'never-empty'],
  ] as const)('"%s" is said', (words, code) => {
    expect(caution(code).text).toContain(words);
  });
});
