import { defineConfig } from '@playwright/test';
import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { presentChromium, presentShell } from '../browser.mjs';

// Kept in the environment: every worker loads this file again and must find the same server.
process.env['PAGES_PORT'] ??= freePort();
const chromiumPath = (process.env['PAGES_CHROMIUM'] ??= presentChromium() ?? '');
const shellPath = (process.env['PAGES_SHELL'] ??= presentShell() ?? '');
/** They film with the browser's fake camera, which the shell lacks. */
const WITH_CAMERA = /camera[^/]*\.spec\.ts$/;
/** Tests with the tag `@release` guard what seldom breaks and takes long: `npm run release`. */
const tagged = process.env['ONLY_RELEASE'] ? { grep: /@release/ } : { grepInvert: /@release/ };
/** They hold the page to a time, which says nothing beside other tests: `npm run paced`. */
const ALONE = /\/alone\/[^/]*\.spec\.ts$/;

const root = fileURLToPath(new URL('../..', import.meta.url));
const origin = `http://localhost:${process.env['PAGES_PORT']}`;

export default defineConfig({
  testDir: '../pages',
  outputDir: '../../test-results',
  fullyParallel: true,
  workers: 2,
  // A guard against hanging, not a measure.
  timeout: 180_000,
  // A reading takes seconds where other work shares the processors.
  expect: { timeout: 20_000 },
  snapshotPathTemplate: '../pages/looks/{arg}{ext}',
  reporter: [['list']],
  forbidOnly: true,
  use: {
    baseURL: origin,
    // Only the tests of offline use let it in: it would fetch the whole site for every test.
    serviceWorkers: 'block',
    locale: 'en-GB',
  },
  projects: [
    {
      name: 'pages',
      ...tagged,
      testIgnore: [WITH_CAMERA, ALONE],
      use: { launchOptions: launchedFrom(shellPath || chromiumPath) },
    },
    { name: 'alone', testMatch: ALONE, use: { launchOptions: launchedFrom(chromiumPath) } },
    {
      name: 'camera',
      ...tagged,
      testMatch: WITH_CAMERA,
      testIgnore: ALONE,
      use: { launchOptions: launchedFrom(chromiumPath) },
    },
  ],
  webServer: {
    command: `node src/cli/start.mjs --built --port ${process.env['PAGES_PORT']}`,
    cwd: root,
    url: origin,
    timeout: 60_000,
  },
});

function launchedFrom(path: string) {
  return { ...(path && { executablePath: path }), args: ['--no-sandbox'] };
}

function freePort(): string {
  const script =
    "const s = require('node:net').createServer().listen(0, () => { console.log(s.address().port); s.close(); });";
  return execFileSync(process.execPath, ['-e', script], { encoding: 'utf8' }).trim();
}
