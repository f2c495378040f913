/**
 * What holds on every page of the build. In one visit for each: coming to a page takes longer than most of what is
 * looked at there.
 */
import { expect, test } from '@playwright/test';
import { barriersOn } from '../accessible.ts';
import { PAGES } from '../built.ts';
import { expectSoundLayout } from '../layout/layout.ts';
import { expectBudget } from './budget.ts';
import { expectForcedColours } from './forced-colours.ts';
import { expectLinks, expectStrictPolicy } from './links-and-policy.ts';
import { watch } from './watch.ts';

test('the build has the pages the site is made of', () => {
  expect(PAGES).toEqual(expect.arrayContaining(['/', '/read/', '/plan/', '/card/']));
  expect(PAGES.filter((path) => path.startsWith('/learn/')).length).toBeGreaterThanOrEqual(20);
});

for (const path of PAGES) {
  test(`${path} holds in every width with every face`, { tag: '@release' }, async ({ page }) => {
    await page.goto(path, { waitUntil: 'networkidle' });
    await expectSoundLayout(page);
  });

  test(`${path} is sound`, async ({ page, baseURL, request }) => {
    const seen = watch(page, baseURL!);
    await page.goto(path);
    await test.step('has a name, one heading, a strict policy', async () => {
      await expectStrictPolicy(page);
      expect(await page.title()).toMatch(/Dipwise/);
      expect(await page.locator('h1').count()).toBe(1);
    });
    await test.step('has links that lead somewhere', () => expectLinks(page, request));
    await test.step('is accessible, in light and dark', async () => expect(await barriersOn(page)).toEqual([]));
    await test.step('sends no more than its budget', async () => {
      // Meanwhile it has long come to rest.
      await page.waitForLoadState('networkidle');
      await expectBudget(page, path, seen.asked);
    });
    await test.step('reads in forced colours', () => expectForcedColours(page));
    await test.step('holds in every width, and in other faces where it is tight', () =>
      expectSoundLayout(page, { isShort: true }));
    await test.step('does all that without complaint, and stays on the site', () => {
      expect(seen.complaints).toEqual([]);
      expect(seen.elsewhere).toEqual([]);
    });
  });
}
