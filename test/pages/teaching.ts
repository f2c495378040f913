/** Steps that the tests of teaching share. */
import { expect, type Locator, type Page } from '@playwright/test';
import { readFileSync } from 'node:fs';

interface Row {
  readonly parameter: string;
  readonly blocks: readonly { readonly value: number; readonly x: number; readonly y: number }[];
}

interface Photo {
  readonly file: string;
  readonly shows: string;
  readonly widthPx: number;
  readonly rows?: readonly Row[];
  readonly values?: Readonly<Record<string, number>>;
}

const truth = JSON.parse(readFileSync('sample-images/charts/truth.json', 'utf8')) as {
  strip: {
    lengthMm: number;
    widthMm: number;
    dipSeconds: number;
    readAfterSeconds: number;
    readBeforeSeconds: number;
    pads: { parameter: string; centreMm: number; widthMm: number }[];
  };
  photos: Photo[];
};

export const STRIP = truth.strip;
export const [CHART, SECOND_LIGHT] = truth.photos.filter(({ shows }) => shows === 'chart') as [Photo, Photo];
export const READING = truth.photos.find(({ shows }) => shows === 'reading')!;
export const ROWS = CHART.rows!;

export const pathOf = (photo: Photo) => `sample-images/${photo.file}`;

export async function openTeaching(page: Page, query = ''): Promise<void> {
  await page.goto(`/scales/teach/${query}`);
  await expect(page.locator('teach-desk')).toHaveAttribute('data-ready', '');
}

export const marking = (page: Page) => page.locator('.marking');
export const rowFields = (page: Page) => page.locator('.chart-row');
export const sheetOf = (page: Page) => page.locator('.board-sheet');

/** Where a place in the photo is on the screen; the board is scrolled so that it can be seen. */
export async function onScreen(page: Page, place: { x: number; y: number }): Promise<{ x: number; y: number }> {
  return page.evaluate(
    ({ x, y, widthPx }) => {
      const sheet = document.querySelector<HTMLElement>('.board-sheet')!;
      const view = sheet.parentElement!;
      view.scrollIntoView({ block: 'center' });
      const scale = sheet.clientWidth / widthPx;
      view.scrollTop = y * scale - view.clientHeight / 2;
      view.scrollLeft = x * scale - view.clientWidth / 2;
      const box = sheet.getBoundingClientRect();
      return { x: box.left + x * scale, y: box.top + y * scale };
    },
    { ...place, widthPx: CHART.widthPx },
  );
}

/** The times, and what stands on the bottle beside the rows; then on to the check. */
/** @param said the last heading */
export async function keepAs(page: Page, name: string, said: string | RegExp = 'The scale is kept'): Promise<void> {
  await page.getByLabel('Name of the strip').fill(name);
  await page.getByRole('button', { name: 'Keep this scale' }).click();
  await expect(page.getByRole('heading', { name: said })).toBeFocused();
}

/** Teaches the sample strip the shortest way there is. */
export async function teachQuickly(page: Page, name: string, said?: string | RegExp): Promise<void> {
  await openTeaching(page);
  await page.setInputFiles('#chart-photo', pathOf(CHART));
  await page.getByRole('button', { name: 'Use these rows' }).click();
  for (const [i, row] of ROWS.entries()) {
    await rowFields(page).nth(i).getByLabel('Measures').selectOption(row.parameter);
    await page.getByLabel(`Row ${i + 1}, value of block 1`, { exact: true }).fill(valuesOf(row).join(' '));
  }
  await page.getByRole('button', { name: 'Go on with these rows' }).click();
  await page.setInputFiles('#strip-photo', 'sample-images/charts/strip-dry.jpg');
  await expect(page.locator('.strip-picture figure')).toBeVisible();
  await fillTimes(page);
  await page.getByRole('button', { name: 'Go on with this strip' }).click();
  await keepAs(page, name, said);
}

export function valuesOf(row: Row): string[] {
  return row.blocks.map(({ value }) => String(value));
}

export async function fillTimes(page: Page): Promise<void> {
  await page.getByLabel('Dip for').fill(String(STRIP.dipSeconds));
  await page.getByLabel('Read from').fill(String(STRIP.readAfterSeconds));
  await page.getByLabel('until').fill(String(STRIP.readBeforeSeconds));
}

/** Presses Tab until the thing has the focus. */
export async function tabTo(page: Page, target: Locator, key: 'Tab' | 'Shift+Tab' = 'Tab'): Promise<void> {
  for (let i = 0; i < 150; i++) {
    if (await target.evaluate((element) => element === document.activeElement)) return;
    await page.keyboard.press(key);
  }
  throw new Error('the focus never came there');
}
