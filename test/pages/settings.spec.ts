import { expect, test } from '@playwright/test';
import { bringIn, jsonOf, openLog, stored } from './logbook.ts';
import { openDesk, ORDINARY, readFrom, sheet } from './reading.ts';
import type { LogData } from '../../src/core/log/schema.ts';
import { completed } from '../../src/core/measurement/measurement.ts';
import { season } from './season.ts';

const SEASON = measuredWarm(season(40));

/** Its newest reading with the water's temperature. */
function measuredWarm(log: LogData): LogData {
  const newest = log.entries.findLast((entry) => entry.kind === 'reading')!;
  const temperature = {
    ...completed('temperature', { value: 26, method: 'meter' }),
    word: null,
    otherWord: null,
    isSure: null,
  };
  const warm = { ...newest, values: [...newest.values, temperature] };
  return { ...log, entries: log.entries.map((entry) => (entry === newest ? warm : entry)) };
}

test('settings hold: units, paper, eyes; and everything can be erased', async ({ page }) => {
  await openLog(page);
  await bringIn(page, await jsonOf(SEASON));
  await page.goto('/settings/');
  await expect(page.locator('.stored')).toContainText(`${SEASON.entries.length} entries of 1 pool`);
  await page.getByLabel('US gallons, pounds, °F').check();
  await page.getByLabel('dark paper').check();
  await expect(page.locator('html')).toHaveAttribute('data-theme', 'night');
  await page.goto('/log/');
  await expect(page.locator('html')).toHaveAttribute('data-theme', 'night');
  await expect(page.locator('.log-entry.reading').first()).toContainText('°F');
  await page.goto('/settings/');
  await page.getByRole('button', { name: 'Erase everything…' }).click();
  await page.getByRole('button', { name: 'Keep it all' }).click();
  expect((await stored(page)).entries).toHaveLength(SEASON.entries.length);
  await page.getByRole('button', { name: 'Erase everything…' }).click();
  await page.getByRole('dialog').getByRole('button', { name: 'Erase everything' }).click();
  await expect(page.locator('.erase-said')).toHaveText('Everything is erased.');
  expect((await stored(page)).entries).toEqual([]);
  expect(await page.evaluate(() => Object.keys(localStorage).filter((key) => key.startsWith('dipwise:')))).toEqual([]);
});

test('each setting reaches the pages it is about, and holds', async ({ page }) => {
  await page.emulateMedia({ colorScheme: 'dark' });
  await page.goto('/settings/');
  await expect(page.locator('settings-desk')).toHaveAttribute('data-ready', '');
  const paper = () => page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor);
  const night = await paper();
  await page.getByLabel('light paper').check();
  const day = await paper();
  expect(day).not.toBe(night);
  await page.getByLabel('US gallons, pounds, °F').check();
  await page.getByLabel('green-weak (deutan)').check();
  await page.getByLabel('the dip timer may sound').uncheck();
  await page.reload();
  for (const label of ['light paper', 'US gallons, pounds, °F', 'green-weak (deutan)']) {
    await expect(page.getByLabel(label)).toBeChecked();
  }
  await expect(page.getByLabel('the dip timer may sound')).not.toBeChecked();
  for (const path of ['/', '/read/', '/plan/', '/log/', '/learn/ph/', '/card/', '/scales/']) {
    await page.goto(path);
    expect(await paper(), path).toBe(day);
  }
  await page.goto('/plan/');
  await expect(page.getByLabel('US gallons and pounds')).toBeChecked();
  await expect(page.locator('[data-unit-of=volume]').first()).toHaveText('US gal');
  await openLog(page);
  await expect(page.locator('[data-metric-unit="°C"]').first()).toHaveText('°F');
  await openDesk(page);
  await readFrom(page, ORDINARY);
  await expect(sheet(page)).toContainText('By eye you might not tell');
  await page.goto('/settings/');
  await page.getByLabel('as the device has it').check();
  expect(await paper()).toBe(night);
});
