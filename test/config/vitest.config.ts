import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['test/**/*.test.ts'],
    exclude: ['test/pages/**'],
    testTimeout: 60_000,
    hookTimeout: 60_000,
    maxWorkers: 2,
    // What seldom breaks and takes long: `npm run release`.
    tags: [{ name: 'release', description: 'looked at before a release', skip: !process.env['ONLY_RELEASE'] }],
    // Tests that change what is global put it back: loading everything anew for each file took a sixth of the time.
    isolate: false,
  },
});
