/** States that a page comes to by use: laid out like every page, and the two that the README shows as pictures. */
import { expect, test } from '@playwright/test';
import { expectSoundLayout } from './layout/layout.ts';
import { bringIn, jsonOf, openLog } from './logbook.ts';
import { expectPicture, whyNoPictures } from './pictures.ts';
import { handedOn, openDesk, ORDINARY, readFrom, REFUSED, refusalOn, sheet } from './reading.ts';
import { season } from './season.ts';

test.beforeEach(async ({ page }) => {
  // Forms begin with today.
  await page.clock.setFixedTime(new Date('2026-06-15T12:00:00'));
});

test('a reading, its plan and a refusal hold in every width and face', async ({ page }) => {
  test.slow();
  await openDesk(page);
  await readFrom(page, ORDINARY);
  await expect(sheet(page)).toBeVisible();
  await expectSoundLayout(page);
  await handedOn(page);
  await expect(page.locator('.plan-sheet h2').first()).toBeVisible();
  await expectSoundLayout(page);
  await openDesk(page);
  await readFrom(page, REFUSED[0]!);
  await expect(refusalOn(page)).toBeVisible();
  await expectSoundLayout(page);
});

test('a full logbook and its report hold in every width and face', async ({ page }) => {
  test.slow();
  await openLog(page);
  await bringIn(page, await jsonOf(season(12)));
  await expectSoundLayout(page);
  await page.goto('/log/report/');
  await expect(page.locator('.report h3').last()).toHaveText('Every reading');
  await expectSoundLayout(page);
});

test('the sheet and the plan look as they did', async ({ page, browser }) => {
  const reason = whyNoPictures(browser.version());
  test.skip(reason !== null, reason ?? '');
  await openDesk(page);
  await readFrom(page, ORDINARY);
  await expectPicture(page, 'sheet', sheet(page), [
    page.locator('dt:text-is("Time taken") + dd'),
    page.locator('.sheet-head'),
  ]);
  await handedOn(page);
  await expectPicture(page, 'plan', page.locator('.plan-sheet'));
});
