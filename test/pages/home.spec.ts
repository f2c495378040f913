/** The home page: the first four steps tick as they are gone, and the main button is on a phone's first screen. */
import { expect, test } from '@playwright/test';
import { handedOn, openDesk, ORDINARY, readFrom, sheet } from './reading.ts';

test('the first steps tick as they are gone', async ({ page }) => {
  await page.setViewportSize({ width: 390, height: 844 });
  await page.goto('/');
  const button = await page.getByRole('link', { name: 'Read a photo' }).boundingBox();
  expect(button!.y + button!.height).toBeLessThanOrEqual(844);
  const done = page.locator('first-steps li:has(.done)');
  await expect(page.locator('first-steps li')).toHaveCount(4);
  await expect(done).toHaveCount(0);
  await page.getByRole('link', { name: 'Print the card' }).click();
  await page.getByRole('link', { name: 'Colour, A4' }).click();
  await expect(page.locator('.marked-files [role=status]')).toContainText('Saved as');
  await openDesk(page);
  await readFrom(page, ORDINARY);
  await page.getByRole('button', { name: 'Keep in the logbook' }).click();
  await expect(sheet(page)).toContainText('Kept in the logbook');
  await handedOn(page);
  await page.fill('#volume', '28500');
  await expect(page.locator('.plan-sheet')).toContainText('What to do');
  await page.goto('/');
  await expect(done).toHaveCount(3);
  // A practice scale is no strip of one's own.
  await expect(page.locator('first-steps [data-step=teach] .done')).toHaveCount(0);
});
