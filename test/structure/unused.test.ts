import { expect, it } from 'vitest';
import { unusedExports } from './unused.ts';

it('everything that is exported is used by more than its tests', () => {
  expect(unusedExports().map(({ file, name }) => `${file}: ${name}`)).toEqual([]);
});
