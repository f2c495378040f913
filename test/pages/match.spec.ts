/** For those who teach: matching by eye, and what is printed without its answers. */
import { expect, test } from '@playwright/test';
import { barriersOn } from './accessible.ts';

test('a class matches one strip by eye, in any light and with any eyes, and sees truth, interval and dots', async ({
  page,
}) => {
  await page.goto('/learn/match-by-eye/');
  const desk = page.locator('match-desk');
  await expect(desk).toHaveAttribute('data-ready', '');
  const swatch = desk.locator('.swatch');
  const colour = () => swatch.evaluate((element) => getComputedStyle(element).backgroundColor);
  const byDay = await colour();
  await page.getByLabel('Eyes').selectOption('none');
  const [, r, g, b] = /rgb\((\d+), (\d+), (\d+)\)/.exec(await colour())!;
  expect(new Set([r, g, b]).size).toBe(1);
  await page.getByLabel('Eyes').selectOption('full');
  expect(await colour()).toBe(byDay);

  await page.getByLabel('Pad').selectOption('ph');
  const choices = desk.locator('.match-chart button');
  await choices.first().click();
  await expect(page.getByRole('heading', { name: 'What it was' })).toBeFocused();
  await expect(desk).toContainText('A photo would have said pH');
  await page.getByRole('button', { name: 'Next person, same strip' }).click();
  await expect(choices.first()).toBeFocused();
  await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  await expect(desk.locator('.dots .dot')).toHaveCount(2);
  await expect(desk).toContainText('2 readings');
  expect(await barriersOn(page)).toEqual([]);
  await page.getByRole('button', { name: 'A new strip' }).click();
  await choices.last().click();
  await expect(desk.locator('.dots .dot')).toHaveCount(1);
});

test('a handout prints no answers, no controls and nothing to drag; the worksheet is one page', async ({ page }) => {
  await page.goto('/learn/how-a-photo-is-read/');
  await page.emulateMedia({ media: 'print' });
  for (const hidden of ['.check .answer', '.instrument .controls', '.instrument .answer']) {
    for (const part of await page.locator(hidden).all()) await expect(part, hidden).toBeHidden();
  }
  await page.goto('/learn/worksheet/');
  for (const format of ['A4', 'Letter'] as const) {
    const pdf = (await page.pdf({ format })).toString('latin1');
    expect(pdf.match(/\/Type\s*\/Page[^s]/g)?.length, format).toBe(1);
  }
});
