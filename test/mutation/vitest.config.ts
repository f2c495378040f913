/** The unit tests that judge changes of one folder of `src/core`: those `run.ts` names. */
import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: JSON.parse(process.env['MUTATION_TESTS'] ?? '[]') as string[],
    setupFiles: ['test/mutation/quick.ts'],
    testTimeout: 60_000,
    hookTimeout: 60_000,
    isolate: false,
  },
});
