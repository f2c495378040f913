/** Text at another size than the browser's ordinary one. */
import { expect, type Page } from '@playwright/test';

/** The browser's own default text size, px: not a zoom, and media queries in em follow it. */
const ORDINARY_TEXT = 16;

/** While the visitor's default text size is another. @param px of ordinary text */
export async function withTextOf(page: Page, px: number, look: () => Promise<void>): Promise<void> {
  const session = await page.context().newCDPSession(page);
  const set = async (standard: number) => {
    await session.send('Page.setFontSizes', { fontSizes: { standard } });
    await expect.poll(() => textPx(page)).toBe(standard);
  };
  await set(px);
  await look();
  await set(ORDINARY_TEXT);
  await session.detach();
}

function textPx(page: Page): Promise<number> {
  return page.evaluate(() => parseFloat(getComputedStyle(document.documentElement).fontSize));
}
