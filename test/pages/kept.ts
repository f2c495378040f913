/** What the service worker says it keeps of the site. */
import { expect, type Page } from '@playwright/test';
import type { SiteState } from '../../src/browser/offline.ts';

export function siteState(page: Page, type = 'state'): Promise<SiteState | null> {
  return page.evaluate((question) => {
    const { controller } = navigator.serviceWorker;
    if (!controller) return null;
    const { port1, port2 } = new MessageChannel();
    return new Promise<SiteState>((resolve) => {
      port1.onmessage = ({ data }) => resolve(data as SiteState);
      controller.postMessage({ type: question }, [port2]);
    });
  }, type);
}

/** Waits until everything that the site keeps, now and for later, is kept. */
export async function allKept(page: Page): Promise<void> {
  await expect.poll(async () => (await siteState(page))?.missing.length, { timeout: 60_000, intervals: [100] }).toBe(0);
}
