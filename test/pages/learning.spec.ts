/** A scale of one's own learns from known water: on the sheet, on the shelf, and back. */
import { expect, type Page, test } from '@playwright/test';
import { readFile } from 'node:fs/promises';
import { parseScale } from '../../src/core/scale/schema.ts';
import { barriersOn } from './accessible.ts';
import { openDesk, ORDINARY, readFrom, sheet } from './reading.ts';

const own = (page: Page) => page.locator('.own-scales article');
const phRow = (page: Page) => sheet(page).locator('.pad[data-parameter=ph]');

/** The practice scale as somebody's own, so that it may learn. */
async function openOwnScale(page: Page): Promise<void> {
  const practice = JSON.parse(await readFile(`src/content/scales/${ORDINARY.scale}.json`, 'utf8')) as object;
  const text = JSON.stringify({ ...practice, id: 'garden-strip', name: 'Garden strip', origin: 'taught' });
  await page.goto('/scales/');
  await expect(page.locator('scale-shelf')).toHaveAttribute('data-ready', '');
  const file = { name: 'scale.json', mimeType: 'application/json', buffer: Buffer.from(text) };
  await page.setInputFiles('#scale-file', file);
  await expect(own(page)).toHaveCount(1);
}

async function readWithOwn(page: Page): Promise<number> {
  await openDesk(page);
  await expect(page.locator('#scale option')).toContainText(['Garden strip']);
  await readFrom(page, { ...ORDINARY, scale: 'garden-strip' });
  await expect(sheet(page)).toBeVisible();
  return Number(await phRow(page).locator('.pad-value strong').textContent());
}

async function teachPh(page: Page, value: string): Promise<void> {
  await phRow(page).locator('summary').click();
  await phRow(page).getByRole('textbox').fill(value);
  await phRow(page).getByRole('combobox').selectOption('meter');
  await phRow(page).getByRole('button', { name: 'Use this' }).click();
  await phRow(page).getByRole('button', { name: 'Let the scale learn this value' }).click();
}

test('a known value moves the scale, shows on the shelf, travels with its file, and can be undone', async ({
  page,
}) => {
  await openOwnScale(page);
  const before = await readWithOwn(page);
  const known = before + 0.3;
  await teachPh(page, known.toFixed(1));
  await expect(phRow(page)).toContainText('The scale has learnt this');
  const after = await readWithOwn(page);
  expect(after).toBeGreaterThan(before);
  expect(after).toBeLessThanOrEqual(known + 0.05);

  await page.goto('/scales/');
  await own(page).getByText('What it has learnt from known water').click();
  await expect(own(page)).toContainText(`pH ${known.toFixed(1)} on`);
  expect(await barriersOn(page)).toEqual([]);
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    own(page).getByRole('button', { name: 'Save to a file' }).click(),
  ]);
  const saved = parseScale(JSON.parse(await readFile(await download.path(), 'utf8')));
  expect(saved.ok && saved.scale.learnt).toHaveLength(1);

  await own(page).getByRole('button', { name: 'Forget it' }).click();
  await expect(own(page).getByText('What it has learnt from known water')).toHaveCount(0);
  expect(await readWithOwn(page)).toBe(before);
});

test('a value beyond the chart, or far from the pad’s colour, teaches nothing and says why', async ({ page }) => {
  await openOwnScale(page);
  await readWithOwn(page);
  await teachPh(page, '9.6');
  await expect(phRow(page)).toContainText('lies beyond the chart');
  await page.goto('/scales/');
  await expect(own(page).getByText('What it has learnt from known water')).toHaveCount(0);
});
