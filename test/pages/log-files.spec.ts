/** The logbook out to files and in again. */
import { expect, test } from '@playwright/test';
import { parse } from 'csv-parse/sync';
import { bringIn, chooseFile, jsonOf, openLog, saved, stored } from './logbook.ts';
import { season } from './season.ts';

const SEASON = season(40);

test('shows what a file would do, does nothing without consent, and takes it back', async ({ page }) => {
  await openLog(page);
  const file = await jsonOf(SEASON);
  await chooseFile(page, 'season.json', file);
  await expect(page.locator('.import-preview')).toContainText(`Adds ${SEASON.entries.length} entries.`);
  expect((await stored(page)).entries).toEqual([]);
  await page.getByRole('button', { name: 'Cancel' }).click();
  await expect(page.locator('.transfer-said')).toHaveText('Nothing was changed.');
  expect((await stored(page)).entries).toEqual([]);

  await bringIn(page, file);
  expect((await stored(page)).entries).toHaveLength(SEASON.entries.length);
  await chooseFile(page, 'season.json', file);
  await expect(page.locator('.import-preview')).toContainText('Nothing: all that can be used of it is here already.');
  await page.getByRole('button', { name: 'Close' }).click();
  await page.getByRole('button', { name: 'Take it back' }).click();
  await expect(page.locator('.transfer-said')).toContainText('gone again');
  const left = await stored(page);
  expect([left.entries, left.imports, left.bin]).toEqual([[], [], []]);
});

test('an ordinary table comes in by its columns, which can be corrected first', async ({ page }) => {
  await openLog(page);
  const lines = ['Date,FC (ppm),pH,Weather', '03/04/2026,2.5,7.4,7.1', '05/04/2026,plenty,7.6,7.2'];
  await chooseFile(page, 'table.csv', lines.join('\n'));
  const preview = page.locator('.import-preview');
  await expect(preview).toContainText('Adds 2 entries.');
  await expect(preview).toContainText('“plenty” under “FC (ppm)” is no value it can have, and is left out');
  await preview.getByLabel('Column pH: what it holds').selectOption('left out');
  await expect(preview).toContainText('Adds 1 entry.');
  await preview.getByLabel('Column Weather: what it holds').selectOption('pH');
  await expect(preview).toContainText('Adds 2 entries.');
  await preview.getByLabel('Dates as 03/04/2026 are').selectOption('4 March');
  await expect(preview.getByLabel('Dates as 03/04/2026 are')).toHaveValue('1');
  await page.getByRole('button', { name: 'Bring it in' }).click();
  await expect(page.locator('.transfer-said')).toContainText('now in the logbook');
  const table = await saved(page, 'Save a table');
  expect(table).toMatch(/2026-03-04T12:00.*,ph,7\.1,/);
  expect(table).toMatch(/2026-03-04T12:00.*,free-chlorine,2\.5,/);
  expect(table).toMatch(/2026-05-04T12:00.*,ph,7\.2,/);
});

test('another’s settings and plan come in where the visitor says so, and are taken back', async ({ page }) => {
  await openLog(page);
  await page.evaluate(() => {
    localStorage.setItem('dipwise:units', 'metric');
    localStorage.setItem('dipwise:plan-form', '{"fields":{"pool.volumeLitres":20000},"shelf":{}}');
  });
  const kept = () =>
    page.evaluate(() => ({
      units: localStorage.getItem('dipwise:units'),
      theme: localStorage.getItem('dipwise:theme'),
      fields: (JSON.parse(localStorage.getItem('dipwise:plan-form')!) as { fields: unknown }).fields,
    }));
  const before = await kept();
  const file = await jsonOf(
    { pools: [], entries: [] },
    [],
    [
      { key: 'settings.units', value: 'us' },
      { key: 'settings.theme', value: 'night' },
      { key: 'plan.pool.volumeLitres', value: 28_500 },
      { key: 'plan.targets.ph.low', value: 7.3 },
    ],
  );
  await chooseFile(page, 'logbook.json', file);
  const preview = page.locator('.import-preview');
  await expect(preview).toContainText('own target for pH, from 7.3');
  await expect(preview).toContainText('volume: here 20,000 L, in the file 28,500 L');
  expect(await kept()).toEqual(before);
  await page.getByLabel(/in place of what the plan’s form holds/).check();
  await page.getByRole('button', { name: 'Bring it in' }).click();
  await expect(page.locator('.transfer-said')).toContainText('3 settings or fields of the plan');
  expect(await kept()).toEqual({
    units: 'metric',
    theme: 'night',
    fields: { 'pool.volumeLitres': 28_500, 'targets.ph.low': 7.3 },
  });
  await expect(page.locator('html')).toHaveAttribute('data-theme', 'night');
  await page.getByRole('button', { name: 'Take it back' }).click();
  await expect(page.locator('.transfer-said')).toContainText('gone again');
  expect(await kept()).toEqual(before);
  await expect(page.locator('html')).not.toHaveAttribute('data-theme', 'night');
});

test('refuses what is no logbook in a sentence', async ({ page }) => {
  await openLog(page);
  for (const [text, said] of [
    ['', 'is empty'],
    ['{"format":"dipwise-logbook","version":99}', 'newer Dipwise'],
    ['hello', 'isn’t a logbook'],
    ['{"a":', 'isn’t a logbook'],
  ] as const) {
    await chooseFile(page, 'file.json', text);
    await expect(page.locator('.transfer-said')).toContainText(said);
  }
  expect((await stored(page)).entries).toEqual([]);
});

test(
  'a copy saved on one device and brought in on another is the same logbook',
  { tag: '@release' },
  async ({ browser, baseURL }) => {
    const device = async () => {
      const context = await browser.newContext({ baseURL: baseURL!, locale: 'en-GB', serviceWorkers: 'block' });
      const page = await context.newPage();
      await openLog(page);
      return page;
    };
    const first = await device();
    await bringIn(first, await jsonOf(SEASON));
    const json = await saved(first, 'Save everything');
    const csv = await saved(first, 'Save a table');
    const second = await device();
    await bringIn(second, json);
    const withoutTime = (file: string) => JSON.stringify({ ...(JSON.parse(file) as object), made: '' });
    expect(withoutTime(await saved(second, 'Save everything'))).toBe(withoutTime(json));
    const third = await device();
    await bringIn(third, csv, 'table.csv');
    expect(withoutTime(await saved(third, 'Save everything'))).toBe(withoutTime(json));
    const rows = parse(csv, { bom: true, columns: true }) as Record<string, string>[];
    expect(rows.filter((row) => row['record'] === 'reading').length).toBeGreaterThan(SEASON.entries.length);
    await expect(first.locator('.copy-state')).toContainText('The last copy was saved');
    for (const page of [first, second, third]) await page.context().close();
  },
);

test('a table that isn’t UTF-8 is refused rather than taken in garbled', async ({ page }) => {
  await openLog(page);
  const latin = Buffer.from('record,time,note\nnote,2026-07-02T10:00Z,zwölf Grad\n', 'latin1');
  await page.setInputFiles('#log-file', { name: 'table.csv', mimeType: 'text/csv', buffer: latin });
  await expect(page.locator('.transfer-said')).toContainText('isn’t text in UTF-8');
  await chooseFile(page, 'table.csv', 'record,time,note\nnote,2026-07-02T10:00Z,zwölf Grad\n');
  await expect(page.locator('.import-preview')).toContainText('Adds 1 entry.');
});

test('a large file is brought in and taken back beside the page, says how far it is, and can be cancelled at any time', async ({
  page,
}) => {
  // What writes in the page itself fails.
  await page.addInitScript(() => {
    IDBObjectStore.prototype.put = () => {
      throw new Error('written in the page');
    };
  });
  await openLog(page);
  const said = page.locator('.transfer-said');
  /** Presses Cancel as soon as the page says so. */
  const cancelAt = (stage: string) =>
    page.evaluate((text) => {
      const place = document.querySelector('.transfer')!;
      const observer = new MutationObserver(() => {
        const button = [...place.querySelectorAll('button')].find(({ textContent }) => textContent === 'Cancel');
        if (!button || !place.querySelector('.transfer-said')!.textContent.includes(text)) return;
        observer.disconnect();
        button.click();
      });
      observer.observe(place, { subtree: true, childList: true, characterData: true });
    }, stage);
  // All of one summer: dates to come are left out of a file.
  const large = season(2000, 0.04);
  const file = await jsonOf(large);
  const counts = async () => {
    const { entries, imports } = await stored(page);
    return [entries.length, imports.length];
  };

  await cancelAt('comparing');
  await chooseFile(page, 'large.json', file);
  await expect(said).toHaveText('Cancelled. Nothing was changed.');
  expect(await counts()).toEqual([0, 0]);

  await chooseFile(page, 'large.json', file);
  await cancelAt('writing it down');
  await page.getByRole('button', { name: 'Bring it in' }).click();
  await expect(said).toContainText(/Cancelled|in the logbook/);
  // In the last moment it is whole, and said to be.
  if ((await said.textContent())?.includes('Cancelled')) {
    expect(await counts()).toEqual([0, 0]);
    await bringIn(page, file, 'large.json');
  }
  expect(await counts()).toEqual([large.entries.length, 1]);

  await cancelAt('writing it down');
  await page.getByRole('button', { name: 'Take it back' }).click();
  await expect(said).toContainText(/Cancelled|gone again/);
  if ((await said.textContent())?.includes('Cancelled')) {
    expect(await counts()).toEqual([large.entries.length, 1]);
    await page.getByRole('button', { name: 'Take it back' }).click();
    await expect(said).toContainText('gone again');
  }
  expect(await counts()).toEqual([0, 0]);
});
