/** What the build holds, for tests that must visit all of it. */
import type { Page } from '@playwright/test';
import { readdirSync } from 'node:fs';

const DIST = new URL('../../dist/', import.meta.url).pathname;

/** Addresses of every page of the build. */
export const PAGES: readonly string[] = pagesIn(DIST);

/** Addresses of the pages in a folder, as if it were served from the root. */
export function pagesIn(folder: string): string[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((path) => path.endsWith('.html'))
    .map((path) => `/${path.replaceAll('\\', '/').replace(/index\.html$/, '')}`)
    .sort();
}

/** By how many pixels the page is wider than its window. */
export function overflow(page: Page): Promise<number> {
  return page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
}
