import { expect, type Page } from '@playwright/test';
import { BUDGETS } from '../../built/budgets.ts';
import { bytesSent, isFont } from '../../built/files.ts';

/**
 * What came until the page rested, nobody having touched it, without the typeface, which comes once
 * for all pages, and without pictures that wait until they come near: `test/built` holds what the files say to the same budget.
 * @param path of the page that is open
 * @param asked paths that were asked for since
 */
export async function expectBudget(page: Page, path: string, asked: readonly string[]): Promise<void> {
  const waiting = await page
    .locator('img[loading="lazy"]')
    .evaluateAll((all) => all.map((one) => new URL((one as HTMLImageElement).src).pathname));
  const bytes = asked
    .filter((one) => !isFont(one) && !waiting.includes(one))
    .reduce((sum, one) => sum + bytesSent(one), 0);
  const { totalKB, laterKB = 0, why } = BUDGETS.find(({ pages }) => pages.test(path))!;
  expect(bytes).toBeGreaterThan(1000);
  expect(bytes / 1000, why).toBeLessThanOrEqual(totalKB + laterKB);
}
