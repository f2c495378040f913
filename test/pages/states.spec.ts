/** States that a page comes to by use: laid out like every page, and what a reading looks like as a picture. */
import { expect, test } from '@playwright/test';
import { barriersOn } from './accessible.ts';
import { expectSoundLayout } from './layout/layout.ts';
import { bringIn, jsonOf, openLog } from './logbook.ts';
import { expectPicture, openKeptReading, whyNoPictures } from './pictures.ts';
import { openDesk, ORDINARY, readFrom, REFUSED, refusalOn, sheet } from './reading.ts';
import { season } from './season.ts';

test.beforeEach(async ({ page }) => {
  // Forms begin with today.
  await page.clock.setFixedTime(new Date('2026-06-15T12:00:00'));
});

test('a reading and a refusal are accessible, and hold in every width and face', async ({ page }) => {
  test.slow();
  await openDesk(page);
  await readFrom(page, ORDINARY);
  await expect(sheet(page)).toBeVisible();
  await page.locator('.correct summary').first().click();
  expect(await barriersOn(page)).toEqual([]);
  await expectSoundLayout(page);
  await readFrom(page, REFUSED[0]!);
  await expect(refusalOn(page)).toBeVisible();
  await expectSoundLayout(page);
});

test('a full logbook, its report and the last question before it is erased', async ({ page }) => {
  test.slow();
  await openLog(page);
  await bringIn(page, await jsonOf(season(20)));
  for (const summary of await page.locator('.write summary').all()) await summary.click();
  expect(await barriersOn(page)).toEqual([]);
  await expectSoundLayout(page);
  await page.goto('/log/report/');
  await expect(page.locator('.report h3').first()).toHaveText('In short');
  await expect(page.locator('.report h3').last()).toHaveText('Every reading');
  expect(await barriersOn(page)).toEqual([]);
  await expectSoundLayout(page);
  const pushed = await page
    .locator('.report section')
    .evaluateAll((all) => all.map((section) => section.scrollWidth - section.clientWidth));
  expect(Math.max(...pushed), 'pushed sideways').toBeLessThanOrEqual(0);
  await page.goto('/settings/');
  await expect(page.locator('settings-desk')).toHaveAttribute('data-ready', '');
  await page.getByRole('button', { name: 'Erase everything…' }).click();
  expect(await barriersOn(page)).toEqual([]);
});

test.describe('pictures', () => {
  test.use({ timezoneId: 'UTC' });

  test('values and ribbons look as they did, and whatever is lost is missed', async ({ page, browser }) => {
    const reason = await whyNoPictures(page, browser.version());
    test.skip(reason !== null, reason ?? '');
    await openKeptReading(page);
    const parts = [
      '.pad-number',
      '.pad-value strong',
      '.pad-word .word',
      '.ribbon .mark',
      '.ribbon .edge',
      '.pad-word .span',
    ];
    await expectPicture(page, 'values', sheet(page).locator('.pads'), parts);
  });
});
