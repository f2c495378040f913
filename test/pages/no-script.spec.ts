import { expect, test } from '@playwright/test';
import { PAGES } from './built.ts';

test.use({ javaScriptEnabled: false });

test('every page is a document without script', async ({ page }) => {
  for (const path of PAGES) {
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
