/** 5,000 random and mutated files: none may crash the readers, and none may bring in what the schemas refuse. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { ReadFile } from '../../../src/core/log/incoming.ts';
import { isIdle, outlineOf, planMerge } from '../../../src/core/log/merge.ts';
import { readLogCsv } from '../../../src/core/log/read-csv.ts';
import { readLogJson } from '../../../src/core/log/read-json.ts';
import { entrySchema, poolSchema } from '../../../src/core/log/schema.ts';
import { hostileFile } from './hostile.ts';
import { POOL } from './samples.ts';

const present = {
  pools: [POOL],
  entries: [],
  scales: [],
  choices: [],
  binned: new Set<string>(),
  pictureIds: new Set<string>(),
};

const readers: ((text: string) => ReadFile)[] = [
  readLogJson,
  (text) => {
    let ids = 0;
    const newId = () => `fresh-${String((ids += 1)).padStart(5, '0')}`;
    return readLogCsv(text, { newId, now: '2026-07-01T00:00:00.000Z', zoneMinutes: 0, poolId: POOL.id, pools: [POOL] });
  },
];

it('reads 5,000 of them without a crash and lets nothing unsound through', { timeout: 60_000 }, () => {
  let usable = 0;
  let refused = 0;
  fc.assert(
    fc.property(hostileFile, (text) => {
      for (const reader of readers) {
        const read = reader(text);
        if (!read.ok) {
          refused += 1;
          continue;
        }
        const plan = planMerge(present, read.incoming);
        if (!isIdle(outlineOf(plan))) usable += 1;
        for (const entry of plan.entries.add) expect(entrySchema.safeParse(entry).success).toBe(true);
        for (const pool of plan.pools.add) expect(poolSchema.safeParse(pool).success).toBe(true);
        expect(present.entries).toEqual([]);
      }
    }),
    { seed: 5000, numRuns: 5000 },
  );
  // The run means something only if it met both kinds.
  expect(usable).toBeGreaterThan(500);
  expect(refused).toBeGreaterThan(500);
});
