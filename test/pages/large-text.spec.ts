import { expect, test } from '@playwright/test';
import { overflow, PAGES } from './built.ts';

// The visitor's own default text size, not a zoom: 16 px doubled.
test.use({
  launchOptions: async ({ launchOptions }, use) => {
    await use({ ...launchOptions, args: [...(launchOptions.args ?? []), '--blink-settings=defaultFontSize=32'] });
  },
});

test('every page fits a phone with text at twice the size', async ({ page }) => {
  await page.setViewportSize({ width: 390, height: 844 });
  for (const path of PAGES) {
    await page.goto(path);
    expect(await page.evaluate(() => getComputedStyle(document.documentElement).fontSize)).toBe('32px');
    expect(await overflow(page), path).toBeLessThanOrEqual(0);
  }
});
