import { expect, test } from '@playwright/test';
import { bringIn, jsonOf, openLog, stored } from './logbook.ts';
import { openDesk, ORDINARY, readFrom, sheet } from './reading.ts';
import { season } from './season.ts';

test('a reading is kept with its picture, corrected, and kept again', async ({ page }) => {
  await openDesk(page);
  await readFrom(page, ORDINARY);
  await page.locator('keep-reading summary').click();
  await page.fill('#keep-note', 'Before the children came');
  await page.fill('#keep-water', 'lukewarm');
  await page.getByRole('button', { name: 'Keep in the logbook' }).click();
  await expect(sheet(page)).toContainText('temperature can’t be right');
  expect((await stored(page)).entries).toEqual([]);
  await page.fill('#keep-water', '25,5');
  await page.getByRole('button', { name: 'Keep in the logbook' }).click();
  await expect(sheet(page)).toContainText('Kept in the logbook of My pool.');
  const first = await stored(page);
  expect(first.entries).toHaveLength(1);
  expect(first.pictures).toMatchObject([{ id: first.entries[0]!.pictureId }]);
  expect(first.pictures[0]!.bytes).toBeGreaterThan(20_000);

  const ph = sheet(page).locator('[data-parameter=ph]');
  await ph.locator('summary').click();
  await ph.locator('input').fill('7.1');
  await ph.getByRole('button', { name: 'Use this' }).click();
  await page.getByRole('button', { name: 'Keep the correction' }).click();
  await expect(sheet(page)).toContainText('Kept in the logbook');
  const second = await stored(page);
  expect(second.entries).toHaveLength(1);
  expect(second.pictures).toEqual(first.pictures);

  await page.getByRole('link', { name: 'Open it' }).click();
  const entry = page.locator('.log-entry.reading');
  await expect(entry).toHaveCount(1);
  await expect(entry).toContainText('7.1');
  await expect(entry).toContainText('by hand');
  await expect(entry.getByRole('row', { name: 'Water temperature 25.5\u00a0°C' })).toBeVisible();
  await expect(entry).toContainText('Before the children came');
  await entry.getByRole('button', { name: 'Show the card' }).click();
  await expect.poll(() => entry.locator('img').evaluate((image: HTMLImageElement) => image.naturalWidth)).toBe(1480);
});

test('the kept picture holds nothing but the picture', async ({ page }) => {
  await openDesk(page);
  await readFrom(page, ORDINARY);
  await page.getByRole('button', { name: 'Keep in the logbook' }).click();
  await expect(sheet(page)).toContainText('Kept in the logbook');
  const markers = await page.evaluate(async () => {
    const db = await new Promise<IDBDatabase>((resolve) => {
      const opening = indexedDB.open('dipwise-log');
      opening.onsuccess = () => resolve(opening.result);
    });
    const [picture] = await new Promise<{ jpeg: Uint8Array }[]>((resolve) => {
      const request = db.transaction('pictures').objectStore('pictures').getAll();
      request.onsuccess = () => resolve(request.result as { jpeg: Uint8Array }[]);
    });
    const { jpeg } = picture!;
    const found: number[] = [];
    for (let at = 2; jpeg[at + 1] !== 0xda; at += 2 + (jpeg[at + 2]! << 8) + jpeg[at + 3]!) found.push(jpeg[at + 1]!);
    return found;
  });
  // ITU-T T.81: no APP1 (EXIF, XMP), no APP13, no comment; JFIF and a colour profile may stay.
  expect(markers.length).toBeGreaterThan(3);
  expect(markers.filter((marker) => (marker >= 0xe0 && marker <= 0xef) || marker === 0xfe)).toEqual(
    markers.filter((marker) => marker === 0xe0 || marker === 0xe2),
  );
});

test('a step of the plan is marked done and stands in the logbook; undone, it is gone', async ({ page }) => {
  await page.goto('/plan/');
  await expect(page.locator('plan-desk')).toHaveAttribute('data-ready', '');
  await page.fill('#volume', '28500');
  for (const [id, value] of [
    ['ph', '8.2'],
    ['total-alkalinity', '110'],
    ['free-chlorine', '4'],
    ['cyanuric-acid', '45'],
    ['temperature', '26'],
  ] as const) {
    await page.fill(`#reading-${id}`, value);
  }
  const step = page.locator('.step', { hasText: /acid/i }).first();
  await step.getByRole('button', { name: /^Mark/ }).click();
  await expect(step.locator('.step-ticked')).toContainText('in the logbook');
  // Typing on makes another plan; the one that is kept is there to come back to.
  await page.fill('#reading-temperature', '25');
  await expect(page.locator('.step-ticked')).toHaveCount(0);
  await page.getByRole('link', { name: 'Back to the plan you keep' }).click();
  await expect(page.locator('.step-ticked')).toHaveCount(1);
  const other = await page.context().newPage();
  await openLog(other);
  await expect(other.locator('.log-entry.addition')).toContainText('from the plan');
  await expect(other.locator('.log-entry.addition')).toContainText(/mol of acid/);
  await other.getByRole('button', { name: 'Change it' }).click();
  await expect(other.locator('#pool-volume')).toHaveValue('28500');
  await page.locator('.step-done').first().getByRole('button', { name: 'Undo' }).click();
  // The plan and its reading stay.
  await expect(other.locator('.log-entry.addition')).toHaveCount(0);
  await expect(other.locator('.log-entry.plan')).toHaveCount(1);
  // One record of the pool: the form has the volume that the logbook was told, and the plan is put right by it.
  await other.fill('#pool-volume', '27000');
  await other.getByRole('button', { name: 'Keep it', exact: true }).click();
  await expect(other.locator('#pool-volume')).toHaveCount(0);
  await page.fill('#reading-temperature', '24');
  await expect(page.locator('#volume')).toHaveValue('27000');
  await page.getByRole('button', { name: /I put something right/ }).click();
  await expect(page.locator('.plan-sheet')).toContainText('as something in the form was put right');
  await expect(other.locator('.log-entry.plan')).toHaveCount(1);
});

test('the plan goes by what the logbook has learnt, with its doubt, until it is told not to', async ({ page }) => {
  await openLog(page);
  const shift = Date.now() - Date.parse(season(40).entries.at(-1)!.time);
  const lately = season(40);
  const entries = lately.entries.map((entry) => ({
    ...entry,
    time: new Date(Date.parse(entry.time) + shift).toISOString(),
  }));
  await bringIn(page, await jsonOf({ ...lately, entries }));
  const learnt = (await page.locator('.now .rate').first().textContent())!;
  expect(learnt).toMatch(/^\d\.\d \(\d\.\d to \d\.\d\)$/);
  await page.goto('/plan/');
  // The pool is the logbook's.
  await expect(page.locator('#volume')).toHaveValue('28500');
  await page.fill('#reading-free-chlorine', '3');
  await page.fill('#reading-ph', '7.5');
  await expect(page.locator('.plan-sheet')).toContainText('(learnt from the logbook)');
  await expect(page.locator('.learnt-use')).toContainText(learnt);
  const offer = page.getByLabel(/Go by the chlorine use in the logbook/);
  await offer.uncheck();
  await expect(page.locator('.plan-sheet')).toContainText('(assumed)');
  // A refusal lasts.
  await page.reload();
  await page.fill('#reading-free-chlorine', '3');
  await expect(offer).not.toBeChecked();
  await expect(page.locator('.plan-sheet')).toContainText('(assumed)');
  await offer.check();
  await expect(page.locator('.plan-sheet')).toContainText('(learnt from the logbook)');
});

test('a reading that isn’t kept comes back from the plan as it was left, and can be kept there', async ({ page }) => {
  await openDesk(page);
  await readFrom(page, ORDINARY);
  await expect(sheet(page)).toContainText('isn’t in the logbook yet. It waits in this tab');
  await page.locator('keep-reading summary').click();
  await page.fill('#keep-note', 'After the storm');
  await page.fill('#since-dip', '20');
  await page.locator('#since-dip').blur();
  const ph = sheet(page).locator('[data-parameter=ph]');
  await ph.locator('summary').click();
  await ph.locator('input').fill('7.1');
  await ph.getByRole('button', { name: 'Use this' }).click();
  const values = sheet(page).locator('.pad-value strong');
  const before = await values.allTextContents();
  await page.waitForFunction(() => sessionStorage.getItem('dipwise:unkept')?.includes('"picture":"'));

  await page.getByRole('button', { name: 'Take these values to the plan' }).click();
  await expect(page.locator('.handover-note')).toContainText('It isn’t in the logbook yet.');
  await page.goto('/read/');
  await expect(sheet(page)).toBeVisible();
  await expect(values).toHaveText(before);
  await expect(page.locator('#since-dip')).toHaveValue('20');
  await expect(page.locator('#keep-note')).toHaveValue('After the storm');
  await expect(sheet(page).locator('canvas')).toHaveCount(1);

  await page.goto('/plan/');
  await page.getByRole('button', { name: 'Keep the reading' }).click();
  await expect(page.locator('.handover-note')).toContainText('Kept in the logbook of My pool.');
  const { entries, pictures } = await stored(page);
  expect(entries).toMatchObject([{ note: 'After the storm', sinceDipSeconds: 20 }]);
  expect(pictures).toMatchObject([{ id: entries[0]!.pictureId }]);
  await page.reload();
  await expect(page.locator('plan-desk')).toHaveAttribute('data-ready', '');
  await expect(page.getByRole('button', { name: 'Keep the reading' })).toHaveCount(0);
  await page.goto('/read/');
  await expect(page.locator('read-desk')).toHaveAttribute('data-ready', '');
  await expect(sheet(page)).toHaveCount(0);
});

test('a reading is put away for good; leaving asks only where it can’t wait', async ({ page }) => {
  const asked: string[] = [];
  page.on('dialog', (dialog) => {
    asked.push(dialog.type());
    void dialog.accept();
  });
  await openDesk(page);
  await readFrom(page, ORDINARY);
  await expect(sheet(page)).toBeVisible();
  await page.reload();
  await expect(sheet(page)).toBeVisible();
  expect(asked).toEqual([]);
  await page.getByRole('button', { name: 'Discard this reading' }).click();
  await expect(sheet(page)).toHaveCount(0);
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(sheet(page)).toContainText('This reading isn’t in the logbook yet');
  await page.getByRole('button', { name: 'Discard this reading' }).click();
  await expect(sheet(page)).toHaveCount(0);
  await page.reload();
  await expect(page.locator('read-desk')).toHaveAttribute('data-ready', '');
  await expect(sheet(page)).toHaveCount(0);

  await page.evaluate(() => {
    Storage.prototype.setItem = () => {
      throw new DOMException('denied', 'QuotaExceededError');
    };
  });
  await readFrom(page, ORDINARY);
  await expect(sheet(page)).toContainText('leaving the page loses it');
  await page.reload();
  expect(asked).toEqual(['beforeunload']);
});
