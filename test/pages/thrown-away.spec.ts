/** The browser throws away the site's storage under an open page. */
import { expect, type Page, test } from '@playwright/test';
import { bringIn, jsonOf, openLog, saved, stored } from './logbook.ts';
import { openDesk, ORDINARY, readFrom, sheet } from './reading.ts';
import { season } from './season.ts';

const SEASON = season(6);
const WAYS = {
  'clearing site data': async (page: Page, origin: string) => {
    const session = await page.context().newCDPSession(page);
    await session.send('Storage.clearDataForOrigin', { origin, storageTypes: 'indexeddb' });
  },
  'deleting the database': async (page: Page, securityOrigin: string) => {
    const session = await page.context().newCDPSession(page);
    await session.send('IndexedDB.enable');
    await session.send('IndexedDB.deleteDatabase', { securityOrigin, databaseName: 'dipwise-log' });
  },
} as const;

for (const [name, throwAway] of Object.entries(WAYS)) {
  // To the page both look alike: one of them before each change.
  const tag = name === 'clearing site data' ? [] : ['@release'];

  test(
    `${name} leaves the log on the screen, says so, and what it holds goes back`,
    { tag },
    async ({ page, baseURL }) => {
      await openLog(page);
      await bringIn(page, await jsonOf(SEASON));
      await expect(page.locator('.log-entry')).toHaveCount(SEASON.entries.length);
      await throwAway(page, baseURL!);
      await expect(page.locator('.notices')).toContainText('thrown the logbook away while this page was open');
      await expect(page.locator('.notices')).toContainText(`still holds ${SEASON.entries.length} entries`);
      await expect(page.locator('.log-entry')).toHaveCount(SEASON.entries.length);

      // The next write goes into a fresh store; one that needs what is gone says why it can't.
      const form = page.locator('form[data-kind=note]');
      await page
        .locator('.write summary', { has: page.getByText(/note/i) })
        .first()
        .click();
      await form.locator('textarea').fill('After it was cleared');
      await form.getByRole('button').click();
      await expect(form.locator('[role=status]')).toHaveText('It is written down.');
      expect((await stored(page)).entries).toMatchObject([{ note: 'After it was cleared' }]);
      await page.locator('.log-entry').first().getByRole('button', { name: 'Delete' }).click();
      await expect(page.locator('.list-said')).toContainText('thrown the logbook away');
      await expect(page.locator('.log-entry')).toHaveCount(SEASON.entries.length);

      const copy = JSON.parse(await saved(page, 'Save it to a file')) as { entries: { id: string }[] };
      expect(copy.entries.map(({ id }) => id).sort()).toEqual(SEASON.entries.map(({ id }) => id).sort());
      await page.getByRole('button', { name: 'Put it back' }).click();
      await expect(page.locator('.thrown-away')).toHaveCount(0);
      await expect(page.locator('.log-entry')).toHaveCount(SEASON.entries.length + 1);
      expect((await stored(page)).entries).toHaveLength(SEASON.entries.length + 1);
    },
  );

  test(`${name} leaves the reading sheet, and the reading is kept all the same`, { tag }, async ({ page, baseURL }) => {
    await openLog(page);
    await bringIn(page, await jsonOf(SEASON));
    await openDesk(page);
    await readFrom(page, ORDINARY);
    await expect(sheet(page)).toBeVisible();
    await throwAway(page, baseURL!);
    await expect(sheet(page)).toBeVisible();
    await page.getByRole('button', { name: 'Keep in the logbook' }).click();
    await expect(sheet(page)).toContainText('Kept in the logbook');
    await expect(sheet(page)).toContainText('thrown the logbook away');
    const { entries, pictures } = await stored(page);
    expect(entries).toHaveLength(1);
    expect(pictures).toMatchObject([{ id: entries[0]!.pictureId }]);
  });
}
