import { defineConfig } from '@playwright/test';
import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { presentChromium } from '../browser.mjs';

// Kept in the environment: every worker loads this file again and must find the same server.
process.env['PAGES_PORT'] ??= freePort();
const chromiumPath = (process.env['CHROMIUM_PATH'] ??= presentChromium() ?? '');

const root = fileURLToPath(new URL('../..', import.meta.url));
const origin = `http://localhost:${process.env['PAGES_PORT']}`;

export default defineConfig({
  testDir: '../pages',
  outputDir: '../../test-results',
  fullyParallel: true,
  workers: 2,
  timeout: 90_000,
  // A reading takes seconds where other work shares the processors.
  expect: { timeout: 20_000 },
  reporter: [['list']],
  forbidOnly: true,
  use: {
    baseURL: origin,
    // Only the tests of offline use let it in: it would fetch the whole site for every test.
    serviceWorkers: 'block',
    locale: 'en-GB',
    launchOptions: {
      ...(chromiumPath && { executablePath: chromiumPath }),
      args: ['--no-sandbox'],
    },
  },
  webServer: {
    command: `npm run --silent preview -- --ignore-lock --port ${process.env['PAGES_PORT']}`,
    cwd: root,
    url: origin,
    timeout: 60_000,
  },
});

function freePort(): string {
  const script =
    "const s = require('node:net').createServer().listen(0, () => { console.log(s.address().port); s.close(); });";
  return execFileSync(process.execPath, ['-e', script], { encoding: 'utf8' }).trim();
}
