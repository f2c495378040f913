/** What of others is in the build, listed with its terms. */
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';

const text = readFileSync(new URL('../../dist/licences.txt', import.meta.url), 'utf8');

it.each(['culori', 'zod', 'idb', 'minisearch', '@expo-google-fonts/source-serif-4'])(
  'names %s, its edition and its licence',
  (name) => {
    const { version } = JSON.parse(readFileSync(`node_modules/${name}/package.json`, 'utf8')) as { version: string };
    expect(text).toMatch(new RegExp(`^${name} ${version}: .+$`, 'm'));
  },
);

it('names nothing that only builds or tests', () => {
  for (const name of ['typescript', 'vitest', 'playwright', 'sharp'])
    expect(text).not.toMatch(new RegExp(`^${name} `, 'm'));
});
