/**
 * Random faults of network, storage, clock and tabs over everything that the site keeps, reads and updates:
 * `npm run faults -- 500 --seed 7`. Whatever the site said is kept must be there at the end, and every page usable.
 */
import { expect, test } from '@playwright/test';
import { FaultRun } from './fault-run.ts';

const STEPS = Number(process.env['FAULT_STEPS'] ?? 60);
const SEED = Number(process.env['FAULT_SEED'] ?? 1);

test(
  `${STEPS} steps with faults, seed ${SEED}: nothing lost, every page usable`,
  { tag: '@release' },
  async ({ browser }) => {
    test.setTimeout(180_000 + STEPS * 30_000);
    const run = await FaultRun.start(browser, SEED);
    try {
      for (let step = 1; step <= STEPS; step++) {
        await run.step();
        if (step % 20 === 0) await run.inspect();
      }
      await run.inspectAll();
    } finally {
      console.log(run.summary());
      await run.end();
    }
    expect(run.problems).toEqual([]);
  },
);
