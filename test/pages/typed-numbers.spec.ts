import { expect, test } from '@playwright/test';
import { barriersOn } from './accessible.ts';
import { openLog, stored } from './logbook.ts';

/** A visitor who writes 1.500,5 where the page writes 1,500.5. */
test.use({ locale: 'de-DE' });

test('a number that can be one thing only is taken as that, whatever its marks', async ({ page }) => {
  await openLog(page);
  const volume = page.locator('#pool-volume');
  for (const [typed, litres] of [
    ['40,000', '40000'],
    ['28.500', '28500'],
    ['28.500,5', '28500.5'],
    ['１２ ０００', '12000'],
  ] as const) {
    await page.getByRole('button', { name: 'Change it' }).click();
    await volume.fill(typed);
    await page.getByRole('button', { name: 'Keep it', exact: true }).click();
    await expect(volume).toHaveCount(0);
    await page.getByRole('button', { name: 'Change it' }).click();
    await expect(volume).toHaveValue(litres);
    await page.getByRole('button', { name: 'Cancel' }).click();
  }
});

test('asks where two are likely, and nothing is written before the answer', async ({ page }) => {
  await openLog(page);
  const form = page.locator('form[data-kind=addition]');
  await page.locator('.write summary', { hasText: 'An addition' }).click();
  await page.selectOption('#w-product', 'water');
  await page.selectOption('.write [name=unit]', 'L');
  await page.fill('#w-amount', '1,500');
  await form.getByRole('button', { name: 'Write it down' }).click();
  const question = form.locator('.which-number');
  await expect(question).toContainText('Which number is meant?');
  await expect(question.getByRole('button')).toHaveText(['1.5', '1,500']);
  await expect(form.locator('.form-end [role=status]')).toContainText('can be read in two ways');
  expect(await barriersOn(page)).toEqual([]);
  expect((await stored(page)).entries).toEqual([]);
  await question.getByRole('button', { name: '1,500' }).click();
  await expect(question).toHaveCount(0);
  await form.getByRole('button', { name: 'Write it down' }).click();
  await expect(page.locator('.log-entry.addition')).toContainText('1,500 L Fresh water');
});

test('the plan reads its fields in the same way', async ({ page }) => {
  await page.goto('plan/');
  await page.fill('#volume', '40,000');
  for (const [id, typed] of [
    ['ph', '7,4'],
    ['free-chlorine', '0,050'],
    ['salt', '3.200'],
  ] as const) {
    await page.fill(`#reading-${id}`, typed);
  }
  await expect(page.locator('.which-number')).toHaveCount(0);
  await expect(page.locator('.field-issue')).toHaveCount(0);
  await page.locator('input[name=units][value=us]').check();
  await expect(page.locator('#volume')).toHaveValue('10570');
});
