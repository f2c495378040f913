import { expect, test } from '@playwright/test';
import { bringIn, jsonOf, openLog } from '../logbook.ts';
import { season } from '../season.ts';

const MAX_MILLIS = 1000;

test('10,000 readings open quickly and scroll', async ({ page }) => {
  test.slow();
  await openLog(page);
  // Seven years that are over: dates to come are left out of a file.
  const { pools, entries } = season(10_000, 0.25);
  const before = (time: string) => new Date(Date.parse(time) - 7 * 365.25 * 86_400_000).toISOString();
  await bringIn(
    page,
    await jsonOf({ pools, entries: entries.map((entry) => ({ ...entry, time: before(entry.time) })) }),
  );
  const times: number[] = [];
  // Others may be using the machine: the best of three is the page's own doing.
  while (times.length < 3 && !times.some((one) => one < MAX_MILLIS)) {
    await page.goto('/settings/');
    await page.goto('/log/', { waitUntil: 'commit' });
    times.push(
      await page.evaluate(
        () =>
          new Promise<number>((resolve) => {
            const look = () => {
              const ready = document.querySelector('log-desk[data-ready]') && document.querySelector('.log-entry');
              if (ready) resolve(performance.now());
              else requestAnimationFrame(look);
            };
            look();
          }),
      ),
    );
  }
  console.log(`10,000 readings: opened after ${times.map(Math.round).join(', ')} ms`);
  expect(Math.min(...times)).toBeLessThan(MAX_MILLIS);
  const count = () => page.locator('.log-entry').count();
  for (let seen = await count(), turn = 0; turn < 5; turn++) {
    await page.mouse.wheel(0, 20_000);
    await expect.poll(count).toBeGreaterThan(seen);
    seen = await count();
  }
  await page.fill('#upto', '2021-03');
  await expect(page.locator('.all-entries h3').first()).toHaveText('March 2021');
});
