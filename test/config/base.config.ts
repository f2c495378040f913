import { defineConfig } from '@playwright/test';
import pages from './playwright.config.ts';

/** The pages' settings, but every test starts a server of its own: see `test/base`. */
export default defineConfig({
  ...pages,
  testDir: '../base',
  outputDir: '../../test-results/base',
  webServer: [],
  use: { ...pages.use, serviceWorkers: 'allow' },
  projects: [{ name: 'base', use: pages.projects?.[0]?.use ?? {} }],
});
