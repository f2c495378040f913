import { launch } from 'puppeteer-core';
import type { DrivenBrowser } from './driven.ts';
import { programFrom } from './packages.ts';

/** Debian's Firefox, over WebDriver BiDi. */
export async function startFirefox(): Promise<DrivenBrowser> {
  const executablePath = programFrom('firefox-esr', ['firefox-esr']);
  const browser = await launch({ browser: 'firefox', executablePath, headless: true, protocolTimeout: 240_000 });
  const page = await browser.newPage();
  const errors: string[] = [];
  page.on('pageerror', (error) => errors.push(String(error)));
  page.on('console', (message) => {
    if (message.type() === 'error') errors.push(message.text());
  });
  return {
    name: 'Firefox',
    version: await browser.version(),
    open: async (url) => void (await page.goto(url, { waitUntil: 'load' })),
    run: (work, argument) => page.evaluate(work as never, argument as never) as never,
    takeErrors: () => errors.splice(0),
    close: () => browser.close(),
  };
}
