/** Nothing on the logbook's page moves under a finger that is about to press something. */
import { expect, test } from '@playwright/test';
import { bringIn, jsonOf, openLog, saved } from './logbook.ts';
import { season } from './season.ts';

test('the page doesn’t fold up, and what is in sight stands still once a new entry is shown', async ({ page }) => {
  await openLog(page);
  const past = season(40);
  await bringIn(page, await jsonOf(past));
  await page.reload();
  await expect(page.locator('log-desk')).toHaveAttribute('data-ready', '');
  await page.locator('.write summary', { hasText: 'A note' }).click();
  await page.fill('#w-note-n', 'Rinsed the skimmer');
  // Written down for the season's last day: today's would begin a new drawing of the last weeks.
  const lastDay = past.entries
    .map(({ time }) => time)
    .sort()
    .at(-1)!
    .slice(0, 10);
  await page.locator('form[data-kind=note] input[name=when]').fill(`${lastDay}T21:00`);
  const save = page.locator('[data-save=csv]');
  await save.scrollIntoViewIfNeeded();
  const seen = await page.evaluate(async () => {
    const button = document.querySelector('[data-save=csv]')!;
    const frames: { height: number; top: number; isThere: boolean }[] = [];
    document.querySelector<HTMLFormElement>('form[data-kind=note]')!.requestSubmit();
    const until = performance.now() + 3000;
    while (performance.now() < until) {
      await new Promise(requestAnimationFrame);
      const isThere = document.querySelector('.log-entry.note')?.textContent.includes('Rinsed the skimmer') ?? false;
      const height = document.documentElement.scrollHeight;
      frames.push({ height, top: button.getBoundingClientRect().top, isThere });
    }
    return frames;
  });
  // Rows out of sight have a guessed height until they come near, which is less than half of theirs (seen: 0.40 of the page
  // under load). Emptied, the page has a fifth.
  expect(Math.min(...seen.map(({ height }) => height))).toBeGreaterThan(0.3 * seen[0]!.height);
  const tops = seen.filter(({ isThere }) => isThere).map(({ top }) => top);
  expect(tops.length).toBeGreaterThan(10);
  expect(Math.max(...tops) - Math.min(...tops)).toBeLessThan(2);
});

test(
  'a copy can be saved at once after an entry was written, again and again',
  { tag: '@release' },
  async ({ page }) => {
    await openLog(page);
    await page.locator('.write summary', { hasText: 'A note' }).click();
    for (let round = 1; round <= 12; round++) {
      await page.fill('#w-note-n', `Round ${round}`);
      await page.locator('form[data-kind=note] button').click();
      await expect(page.locator('.log-entry.note').first()).toContainText(`Round ${round}`);
      expect(await saved(page, 'Save a table')).toContain(`Round ${round}`);
    }
  },
);
