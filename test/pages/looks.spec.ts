import { expect, test } from '@playwright/test';
import { PAGES } from './built.ts';
import { bringIn, jsonOf, openLog } from './logbook.ts';
import { expectLook, SMALL, type Way, WAYS } from './looks.ts';
import { handedOn, openDesk, ORDINARY, readFrom, REFUSED, refusalOn, sheet } from './reading.ts';
import { season } from './season.ts';

test.use(SMALL);

/** States that a page comes to by use are looked at in fewer ways. */
const IN_WAYS: readonly Way[] = WAYS.filter(({ name }) => ['360', '390-dark', '768-print', '1280'].includes(name));

test.beforeEach(async ({ page }) => {
  // Forms begin with today.
  await page.clock.setFixedTime(new Date('2026-06-15T12:00:00'));
});

for (const path of PAGES) {
  test(`${path} looks as it did`, async ({ page }) => {
    await page.goto(path, { waitUntil: 'networkidle' });
    const name = path.replaceAll('/', ' ').trim().replaceAll(' ', '-') || 'home';
    for (const way of WAYS) await expectLook(page, name, way);
  });
}

test('a reading, a refusal and a plan look as they did', async ({ page }) => {
  await openDesk(page);
  await readFrom(page, ORDINARY);
  await expect(sheet(page)).toBeVisible();
  const varying = [page.locator('dt:text-is("Time taken") + dd'), page.locator('.sheet-head')];
  for (const way of IN_WAYS) await expectLook(page, 'sheet', way, { of: sheet(page), varying });
  await handedOn(page);
  const plan = page.locator('plan-desk');
  for (const way of IN_WAYS) await expectLook(page, 'plan-full', way, { of: plan });
  await openDesk(page);
  await readFrom(page, REFUSED[0]!);
  for (const way of IN_WAYS) await expectLook(page, 'refusal', way, { of: refusalOn(page) });
});

test('the report of a full logbook looks as it did', async ({ page }) => {
  await openLog(page);
  await bringIn(page, await jsonOf(season(12)));
  await page.goto('/log/report/');
  await expect(page.locator('.report h3').last()).toHaveText('Every reading');
  for (const way of IN_WAYS) await expectLook(page, 'report-full', way, { of: page.locator('log-report') });
});
