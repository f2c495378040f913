import { expect, type Page } from '@playwright/test';
import { overflow } from '../built.ts';

const WIDTHS = [320, 360, 390, 768, 1280];
const PHONE = { width: 390, height: 844 };
/** The browser's own default text size, px: not a zoom, and media queries in em follow it. */
const ORDINARY_TEXT = 16;

export async function expectFits(page: Page): Promise<void> {
  const before = page.viewportSize()!;
  for (const width of WIDTHS) {
    await page.setViewportSize({ width, height: 800 });
    expect(await overflow(page), `${width} px`).toBeLessThanOrEqual(0);
  }
  await page.setViewportSize(PHONE);
  await withTextOf(page, 2 * ORDINARY_TEXT, async () => {
    expect(await overflow(page), 'text at twice the size').toBeLessThanOrEqual(0);
  });
  await page.setViewportSize(before);
}

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
