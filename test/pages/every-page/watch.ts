import type { Page } from '@playwright/test';

export interface Seen {
  /** Paths on the site that were asked for, each once. */
  readonly asked: readonly string[];
  /** Addresses on other sites that were asked for. */
  readonly elsewhere: readonly string[];
  /** Errors and warnings of the console, and what was thrown. */
  readonly complaints: readonly string[];
}

/** From now on. @param origin the site's */
export function watch(page: Page, origin: string): Seen {
  const asked: string[] = [];
  const elsewhere: string[] = [];
  const complaints: string[] = [];
  page.on('request', (request) => {
    const url = new URL(request.url());
    if (!url.protocol.startsWith('http')) return;
    if (url.origin !== origin) elsewhere.push(url.href);
    else if (!asked.includes(url.pathname)) asked.push(url.pathname);
  });
  page.on('console', (message) => {
    const isOurs = !message.text().includes('Service Worker registration blocked by Playwright');
    if (isOurs && ['error', 'warning'].includes(message.type())) complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  return { asked, elsewhere, complaints };
}
