/** Names, notes and files from elsewhere must stay text: on every page, in print, in charts, tables and calendars. */
import { expect, type Page, test } from '@playwright/test';
import { parse } from 'csv-parse/sync';
import { readFileSync } from 'node:fs';
import { bringIn, chooseFile, jsonOf, openLog, saved } from './logbook.ts';
import { settled } from './moments.ts';
import { POOL, season } from './season.ts';

/* After OWASP's "XSS Filter Evasion Cheat Sheet" and "CSV Injection"; see the head of the file. */
const STRINGS = readFileSync('test/reference/owasp-strings.txt', 'utf8')
  .split('\n')
  .filter((line) => line !== '' && !line.startsWith('#!'));

/** Whatever ran would say so. */
async function watch(page: Page, baseURL: string): Promise<() => Promise<void>> {
  const happened: string[] = [];
  page.on('dialog', (dialog) => {
    happened.push(`dialog: ${dialog.message()}`);
    void dialog.dismiss();
  });
  page.on('pageerror', (error) => happened.push(error.message));
  page.on('console', (message) => {
    const isOurs = !message.text().includes('Service Worker registration blocked by Playwright');
    if (isOurs && ['error', 'warning'].includes(message.type())) happened.push(message.text());
  });
  page.on('request', (request) => {
    const url = new URL(request.url());
    if (url.protocol.startsWith('http') && url.origin !== baseURL) happened.push(`request: ${request.url()}`);
  });
  page.on('popup', () => happened.push('popup'));
  return async () => {
    await settled(page);
    expect(happened).toEqual([]);
    const alien =
      'iframe, object, embed, base, main script:not([type]), main link, main style, main meta, [onerror], [onload]';
    expect(await page.locator(alien).count()).toBe(0);
  };
}

async function hostileFile(): Promise<string> {
  const { entries } = season(30);
  const readings = entries.filter((entry) => entry.kind === 'reading');
  const clean = (text: string, i: number) => text.slice(0, 110) || `empty ${i}`;
  return jsonOf({
    pools: [{ ...POOL, name: clean(STRINGS[0]!, 0) }],
    entries: STRINGS.flatMap((text, i) => {
      const time = new Date(Date.parse(POOL.edited) + i * 3_600_000).toISOString();
      const base = { poolId: POOL.id, revision: 1, edited: time, time, zoneMinutes: 120, note: text };
      const scale = { id: clean(text, i).slice(0, 60), name: clean(text, i), origin: null };
      return [
        { ...readings[i % readings.length]!, ...base, id: `hostile-reading-${i}`, scale },
        {
          ...base,
          id: `hostile-addition-${i}`,
          kind: 'addition' as const,
          origin: 'typed' as const,
          product: clean(text, i),
          agent: 'other' as const,
          amount: 1,
          unit: 'L' as const,
          chlorineGrams: null,
          acidMoles: null,
          productId: null,
          strength: null,
        },
      ];
    }),
  });
}

test('there are strings to try', () => {
  expect(STRINGS.length).toBeGreaterThan(40);
});

test(
  'no imported text runs anywhere, and every file writes it as text',
  { tag: '@release' },
  async ({ page, baseURL }) => {
    test.slow();
    const unharmed = await watch(page, baseURL!);
    await openLog(page);
    await bringIn(page, await hostileFile(), '<img src=x onerror=alert(1)>.json');
    await page.mouse.wheel(0, 100_000);
    await expect(page.locator('.log-entry').first()).toBeVisible();
    await unharmed();
    // What is shown is the text itself.
    await expect(page.locator('.log-entry .note').first()).toContainText(/./);

    const csv = await saved(page, 'Save a table');
    const rows = parse(csv, { bom: true, columns: true }) as Record<string, string>[];
    for (const column of ['note', 'product', 'pool', 'strip scale', 'strip scale id']) {
      for (const row of rows) expect(row[column]).not.toMatch(/^\s*[=+\-@\t\r]/);
    }
    const calendar = await saved(page, 'Into my calendar');
    expect(calendar.match(/^BEGIN:VEVENT/gm)).toHaveLength(1);

    for (const path of ['/log/report/', '/settings/', '/read/', '/plan/', '/scales/']) {
      await page.goto(path, { waitUntil: 'networkidle' });
      await unharmed();
    }
    await page.goto('/log/report/');
    await page.emulateMedia({ media: 'print' });
    await page.pdf();
    await unharmed();
  },
);

test('a file full of wrong things is told of as text', async ({ page, baseURL }) => {
  const unharmed = await watch(page, baseURL!);
  await openLog(page);
  const rows = STRINGS.map((text) => `reading,2026-07-02T10:00Z,"${text.replaceAll('"', '""')}",1`);
  await chooseFile(page, 'bad.csv', `record,time,parameter,value\n${rows.join('\n')}\n`);
  await expect(page.locator('.import-preview')).toContainText('can’t be used');
  await unharmed();
});
