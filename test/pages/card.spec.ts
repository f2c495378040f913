/** The card's page: files with a mark of their own, and the check of a print. */
import { expect, test } from '@playwright/test';
import { readFile } from 'node:fs/promises';

test('a file of the card gets a mark of its own each time it is fetched', async ({ page }) => {
  await page.goto('/card/');
  const fetched = async () => {
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('link', { name: 'Colour, A4' }).click(),
    ]);
    return { name: download.suggestedFilename(), file: await readFile((await download.path())!, 'latin1') };
  };
  const [one, other] = [await fetched(), await fetched()];
  for (const { name, file } of [one, other]) {
    expect(name).toMatch(/^dipwise-card-a4-[0-9A-F]{3}\.pdf$/);
    // Cells that are drawn begin with a space, others are comments.
    const cells = /%print-mark\n((?:.*\n){24})/.exec(file)![1]!.split('\n');
    expect(cells.filter((line) => line.startsWith(' ')).length % 4).toBe(0);
    expect(cells.some((line) => line.startsWith(' '))).toBe(true);
  }
  await expect(page.locator('.marked-files [role=status]')).toContainText(other.name);
});

test('a print is checked by photos of the empty card', async ({ page }) => {
  await page.goto('/card/');
  await page.getByText('Begin the check').click();
  const walk = page.locator('check-walk');
  const status = walk.locator('[role=status]');
  await expect(async () => {
    await walk.getByLabel(/Photos of the empty card/).setInputFiles('sample-images/refused/no-card.jpg');
    await expect(status).toContainText('card', { timeout: 5000 });
  }).toPass();
  await expect(walk.locator('.found li')).toHaveCount(0);
  await walk.getByLabel(/Photos of the empty card/).setInputFiles('sample-images/refused/no-strip.jpg');
  await expect(walk.locator('.found li')).toHaveCount(4);
  await walk.getByLabel(/A ruler along/).fill('48');
  await expect(walk.locator('.found li').first()).toContainText('Size: poor');
  await walk.getByText('Tell us what reality looks like').click();
  await expect(walk.locator('pre')).toContainText('"format": "dipwise-print-check"');
  await walk.getByRole('button', { name: 'Start again' }).click();
  await expect(walk.locator('.found li')).toHaveCount(0);
});
