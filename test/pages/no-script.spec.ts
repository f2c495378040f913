import { expect, test } from '@playwright/test';
import { BUDGETS } from '../built/budgets.ts';
import { textOf } from '../built/files.ts';
import { PAGES } from './built.ts';

test.use({ javaScriptEnabled: false });

test('every page is a document without script', async ({ page }) => {
  for (const path of PAGES) expect(textOf(path), path).toMatch(/<nav[^>]* aria-label="Main"[^]*<h1/);
  // One of each type shows them.
  for (const { pages } of BUDGETS) {
    const path = PAGES.find((one) => pages.test(one))!;
    await page.goto(path);
    await expect(page.locator('h1'), path).toBeVisible();
    await expect(page.getByRole('navigation', { name: 'Main' }), path).toBeVisible();
  }
});

test('the pages that compute say what they need, and show no dead controls', async ({ page }) => {
  for (const path of ['/read/', '/plan/', '/scales/', '/scales/teach/', '/log/', '/log/report/', '/settings/']) {
    await page.goto(path);
    await expect(page.locator('noscript p'), path).toContainText('needs JavaScript');
    await expect(page.locator('main :is(button, input, select):visible'), path).toHaveCount(0);
  }
});
