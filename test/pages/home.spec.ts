/** The home page: the first four steps tick as they are gone, and the main button is on a phone's first screen. */
import { expect, type Locator, test } from '@playwright/test';
import type { Entry } from '../../src/core/log/schema.ts';
import { bringIn, jsonOf, openLog } from './logbook.ts';
import { season } from './season.ts';
import { handedOn, openDesk, ORDINARY, readFrom, sheet } from './reading.ts';

test('the first steps tick as they are gone', async ({ page }) => {
  await page.setViewportSize({ width: 390, height: 844 });
  await page.goto('/');
  const button = await page.locator('pool-today').getByRole('link', { name: 'Read a strip' }).boundingBox();
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
  // What was read with an invented scale says nothing about swimming.
  await expect(page.locator('pool-today .answer')).toHaveText('Nothing is known of the water yet.');
  await expect(page.locator('.last-reading')).toContainText('it says nothing about real water');
  // A practice scale is no strip of one's own.
  await expect(page.locator('first-steps [data-step=teach] .done')).toHaveCount(0);
});

test('whoever comes back finds today’s answer, the last reading with its trend, and the next test', async ({
  page,
}) => {
  const { pools, entries } = season(12);
  const late = Date.now() - 3_600_000 - Math.max(...entries.map(({ time }) => Date.parse(time)));
  const taught = { id: 'my-strip', name: 'My strip', origin: 'taught' as const };
  const moved = entries.map((entry): Entry => {
    const time = new Date(Date.parse(entry.time) + late).toISOString();
    return entry.kind === 'reading' ? { ...entry, time, scale: taught } : { ...entry, time };
  });
  await page.setViewportSize({ width: 390, height: 844 });
  await openLog(page);
  await bringIn(page, await jsonOf({ pools, entries: moved }));
  await page.goto('/');
  await expect(page.getByRole('heading', { level: 1, name: 'Your pool today', exact: true })).toBeVisible();
  // Neither stabilizer nor a look at the floor is in this log.
  await expect(page.locator('.answer')).toHaveText('What was measured can’t tell whether the water is fit to swim in.');
  const rows = page.locator('.last-reading li');
  await expect(rows).toHaveCount(3);
  await expect(rows.first()).toContainText(/Free chlorine[\d.]+ mg\/L (likely )?in range/);
  await expect(rows.locator('svg')).toHaveCount(3);
  await expect(page.getByRole('heading', { name: 'Next test' })).toBeVisible();
  const button = await page.getByRole('link', { name: 'Read a strip' }).first().boundingBox();
  expect(button!.y + button!.height).toBeLessThanOrEqual(844);
  await page.getByRole('link', { name: 'Write values down by hand' }).click();
  await expect(page.getByLabel('Measured with')).toBeFocused();
  await page.getByLabel('Measured with').selectOption('drops');
  await page.getByLabel('Calcium hardness').fill('240');
  await page.getByRole('button', { name: 'Write it down' }).first().click();
  await expect(page.getByText('It is written down.')).toBeVisible();
  await page.goto('/');
  await expect(rows.first()).toContainText('Calcium hardness240');
});

test('a first plan is eight taps away, a kept reading four', async ({ page }) => {
  await page.setViewportSize({ width: 390, height: 844 });
  let taps = 0;
  const tap = async (target: Locator) => {
    taps += 1;
    await target.click();
  };
  await page.goto('/');
  await tap(page.getByRole('link', { name: 'Take a practice photo' }));
  await expect(page.locator('read-desk')).toHaveAttribute('data-ready', '');
  await tap(page.locator('button[data-photo]').first());
  await tap(page.getByRole('button', { name: 'Keep in the logbook' }));
  await tap(page.getByRole('button', { name: 'Take these values to the plan' }));
  await tap(page.locator('#volume'));
  await page.keyboard.type('28500');
  await expect(page.locator('.plan-sheet')).toContainText('What to do');
  expect(taps).toBeLessThanOrEqual(8);
  // What an invented strip asks for is no dose of a real pool.
  await page.locator('summary', { hasText: 'Measured' }).click();
  await page.fill('#reading-ph', '8.3');
  await expect(page.locator('.step').first()).toBeVisible();
  await expect(page.getByRole('button', { name: /^(Mark|Keep this plan)/ })).toHaveCount(0);
  taps = 0;
  await page.goto('/');
  await tap(page.locator('pool-today').getByRole('link', { name: 'Read a strip' }));
  await expect(page.locator('read-desk')).toHaveAttribute('data-ready', '');
  // The scale of one’s own strip is remembered.
  await page.selectOption('#scale', ORDINARY.scale);
  // A photo is chosen in the system's own window: one tap opens it, one chooses.
  taps += 2;
  await page.setInputFiles('#photo', `sample-images/${ORDINARY.file}`);
  await tap(page.getByRole('button', { name: 'Keep in the logbook' }));
  await expect(sheet(page)).toContainText('Kept in the logbook');
  expect(taps).toBeLessThanOrEqual(4);
});
