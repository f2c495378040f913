import { chromium } from 'playwright';
import { presentChromium } from '../browser.mjs';
import { type DrivenBrowser, NotHere } from './driven.ts';

export async function startChromium(): Promise<DrivenBrowser> {
  const executablePath = presentChromium();
  if (!executablePath) throw new NotHere('Chromium isn’t installed');
  const browser = await chromium.launch({ executablePath, args: ['--no-sandbox'] });
  const page = await (await browser.newContext({ serviceWorkers: 'block' })).newPage();
  const errors: string[] = [];
  page.on('pageerror', ({ message }) => errors.push(message));
  page.on('console', (message) => message.type() === 'error' && errors.push(message.text()));
  return {
    name: 'Chromium',
    version: browser.version(),
    open: async (url) => void (await page.goto(url, { waitUntil: 'networkidle' })),
    run: (work, argument) => page.evaluate(work as never, argument as never),
    takeErrors: () => errors.splice(0),
    close: () => browser.close(),
  };
}
