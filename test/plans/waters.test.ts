import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { WATERS } from './waters.ts';
import { watersText } from './waters-text.ts';

it('the page of thirty waters is current', () => {
  expect(WATERS).toHaveLength(30);
  expect(readFileSync(new URL('WATERS.md', import.meta.url), 'utf8')).toBe(watersText());
});
