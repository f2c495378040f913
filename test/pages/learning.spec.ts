/** A scale of one's own learns from known water: on the sheet, on the shelf, and back. */
import { expect, type Locator, type Page, test } from '@playwright/test';
import { readFile } from 'node:fs/promises';
import type { Unkept } from '../../src/browser/unkept.ts';
import { parseScale, type StripScale } from '../../src/core/scale/schema.ts';
import { teachScale } from '../../src/core/scale/teach.ts';
import { CALIBRATION_PHONES } from '../bench/accuracy/cases.ts';
import { everydayLight, ownerOf, phoneOf, takeShot } from '../bench/accuracy/world.ts';
import { randomFrom } from '../studio/random.ts';
import { PRACTICE_FOUR } from '../studio/strips/strips.ts';
import { barriersOn } from './accessible.ts';
import { openDesk, ORDINARY, readFrom, sheet } from './reading.ts';

const own = (page: Page) => page.locator('.own-scales article');
const phRow = (page: Page) => sheet(page).locator('.pad[data-parameter=ph]');

/** The practice scale as somebody's own, so that it may learn; or another one of the same strip. */
async function openOwnScale(page: Page, scale?: StripScale): Promise<void> {
  const practice = JSON.parse(await readFile(`src/content/scales/${ORDINARY.scale}.json`, 'utf8')) as object;
  const text = JSON.stringify({ ...practice, ...scale, id: 'garden-strip', name: 'Garden strip', origin: 'taught' });
  await page.goto('/scales/');
  await expect(page.locator('scale-shelf')).toHaveAttribute('data-ready', '');
  const file = { name: 'scale.json', mimeType: 'application/json', buffer: Buffer.from(text) };
  await page.setInputFiles('#scale-file', file);
  await expect(own(page)).toHaveCount(1);
}

/** @returns the pH as computed, not as rounded to be shown */
async function readWithOwn(page: Page): Promise<number> {
  await openDesk(page);
  await expect(page.locator('#scale option')).toContainText(['Garden strip']);
  await readFrom(page, { ...ORDINARY, scale: 'garden-strip' });
  await expect(sheet(page)).toBeVisible();
  const waiting = JSON.parse((await page.evaluate(() => sessionStorage.getItem('dipwise:unkept')))!) as Unkept;
  return waiting.outcome.pads.find(({ quantity }) => quantity === 'ph')!.value!;
}

async function correct(row: Locator, value: string): Promise<void> {
  await row.locator('summary').click();
  await row.getByRole('textbox').fill(value);
  await row.getByRole('combobox').selectOption('meter');
  await row.getByRole('button', { name: 'Use this' }).click();
}

async function teachPh(page: Page, value: string): Promise<void> {
  await correct(phRow(page), value);
  await phRow(page).getByRole('button', { name: 'Let the scale learn this value' }).click();
}

test('a known value moves the scale, shows on the shelf, travels with its file, and can be undone', async ({
  page,
}) => {
  await openOwnScale(page);
  const before = await readWithOwn(page);
  const known = Number((before + 0.3).toFixed(1));
  await teachPh(page, String(known));
  await expect(phRow(page)).toContainText('The scale has learnt this');
  const after = await readWithOwn(page);
  expect(after).toBeGreaterThan(before);
  expect(after).toBeLessThan(known);

  await page.goto('/scales/');
  await own(page).getByText('What it has learnt from known water').click();
  await expect(own(page)).toContainText(`pH ${known} on`);
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

test('another print is told of, and known once two values of the strip are', async ({ page }) => {
  const random = randomFrom(5);
  const owner = ownerOf(PRACTICE_FOUR, random.fork('owner'));
  const light = everydayLight(random.fork('light'));
  const shot = takeShot(owner, phoneOf(CALIBRATION_PHONES, random.fork('phone')), light, random.fork('shot'));
  const taught = [{ light: 'shade', card: shot.card, blocks: shot.chart() }];
  const { lengthMm, widthMm } = PRACTICE_FOUR;
  await openOwnScale(page, teachScale({ ...PRACTICE_FOUR, strip: { lengthMm, widthMm } }, taught, 'garden-strip'));
  await readWithOwn(page);
  await expect(sheet(page)).toContainText('Its colour patches count for less');
  const know = sheet(page).getByRole('button', { name: 'Let the scale know this print by this strip' });
  await know.click();
  await expect(sheet(page)).toContainText('First correct two values or more');
  await correct(phRow(page), String(ORDINARY.values['ph']));
  const alkalinity = sheet(page).locator('.pad[data-parameter=total-alkalinity]');
  await correct(alkalinity, String(ORDINARY.values['total-alkalinity']));
  await know.click();
  await expect(sheet(page)).toContainText('The scale knows this print now');
  await readWithOwn(page);
  await expect(sheet(page)).not.toContainText('Its colour patches count for less');
  await expect(know).toHaveCount(0);
});
