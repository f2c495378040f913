import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['test/**/*.test.ts'],
    exclude: ['test/pages/**'],
    testTimeout: 60_000,
    hookTimeout: 60_000,
    maxWorkers: 2,
    // Tests that change what is global put it back: loading everything anew for each file took a sixth of the time.
    isolate: false,
  },
});
