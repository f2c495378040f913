/** Hostile files on the way into a logbook: looking changes nothing, and what was brought in can be taken back. */
import 'fake-indexeddb/auto';
import fc from 'fast-check';
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { openLogbook } from '../../../src/browser/store/logbook.ts';
import { TABLES } from '../../../src/browser/store/tables.ts';
import { applyImport, takeBack } from '../../../src/components/log/import.ts';
import { isIdle } from '../../../src/core/log/merge.ts';
import { entrySchema, poolSchema } from '../../../src/core/log/schema.ts';
import { hostileFile } from '../../core/log/hostile.ts';
import { previewText } from './preview-text.ts';

/** `HOSTILE_FILES=5000 npm run unit -- hostile-imports` takes about two minutes. */
const FILES = Number(process.env['HOSTILE_FILES'] ?? 300);

it(`leaves the logbook as it was, file by file (${FILES} files)`, { timeout: 60_000 + FILES * 200 }, async () => {
  const logbook = await openLogbook();
  const { store } = logbook;
  const own = readFileSync(new URL('../../core/log/versions/v2.json', import.meta.url), 'utf8');
  const first = await previewText(logbook, 'v2.json', own);
  if (!first.ok) throw new Error(first.failure);
  await applyImport(logbook, first.preview, first.desk);
  const contents = async () => {
    const tables = TABLES.filter((table) => table !== 'meta');
    const all = await Promise.all(tables.map(async (table) => [table, await store.all(table)]));
    return JSON.stringify(all);
  };
  const before = await contents();
  const ids = await store.ids('entries');
  expect(ids.length).toBeGreaterThan(2);
  const met = { refused: 0, idle: 0, applied: 0 };
  await fc.assert(
    fc.asyncProperty(hostileFile, async (text) => {
      const result = await previewText(logbook, 'file', text);
      expect(await contents()).toBe(before);
      if (!result.ok) return void (met.refused += 1);
      if (isIdle(result.preview.plan)) return void (met.idle += 1);
      await applyImport(logbook, result.preview, result.desk);
      met.applied += 1;
      const after = await store.all('entries');
      // Nothing that was there is gone, and nothing unsound has come.
      expect(after.map(({ id }) => id)).toEqual(expect.arrayContaining(ids));
      for (const entry of after) expect(entrySchema.safeParse(entry).success).toBe(true);
      for (const pool of await store.all('pools')) expect(poolSchema.safeParse(pool).success).toBe(true);
      const records = await store.all('imports');
      await takeBack(
        logbook,
        records.find(({ fileName }) => fileName === 'file')!,
        result.desk,
      );
      expect(await contents()).toBe(before);
    }),
    { seed: 41, numRuns: FILES },
  );
  console.log(`${FILES} files: ${JSON.stringify(met)}`);
  expect(met.refused).toBeGreaterThan(FILES / 20);
  expect(met.applied).toBeGreaterThan(FILES / 20);
});
