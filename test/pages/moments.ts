/** Moments of a page that nothing in its markup shows, and time that has to pass. */
import type { Page } from '@playwright/test';

/**
 * Lets time pass where its passing is what is looked at: a crash at some moment, a person's pace, a span that is measured.
 * What is waited for is never waited for like this.
 */
export async function letPass(page: Page, millis: number): Promise<void> {
  // eslint-disable-next-line no-restricted-properties -- the one place
  await page.waitForTimeout(millis);
}

/** Until the page has drawn what was changed, and every task that was waiting by then is done. */
export async function settled(page: Page): Promise<void> {
  await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => setTimeout(done))));
}
