/** Steps that the tests of the read page share. */
import { expect, type Page } from '@playwright/test';
import { readFileSync } from 'node:fs';
import type { Handover } from '../../src/browser/handover.ts';

interface Photo {
  readonly file: string;
  readonly scale: string;
  readonly values: Record<string, number>;
}

const truth = JSON.parse(readFileSync('sample-images/truth.json', 'utf8')) as {
  photos: Photo[];
  refused: { file: string; refused: string; scale: string }[];
};

/** An ordinary practice photo, and one of 12 megapixels. */
export const ORDINARY = photoCalled('open-shade-terrace.jpg');
export const TWELVE_MEGAPIXELS = photoCalled('poolside-12-megapixel.jpg');
export const REFUSED = truth.refused;

export const sheet = (page: Page) => page.locator('.reading-sheet');
export const refusalOn = (page: Page) => page.locator('.refusal');

export async function openDesk(page: Page): Promise<void> {
  await page.goto('/read/');
  await expect(page.locator('read-desk')).toHaveAttribute('data-ready', '');
}

export async function readFrom(page: Page, photo: { file: string; scale: string }): Promise<void> {
  await page.selectOption('#scale', photo.scale);
  await page.setInputFiles('#photo', `sample-images/${photo.file}`);
}

/** The values that the sheet hands on, exactly as computed. */
export async function handedOn(page: Page): Promise<Handover> {
  await page.getByRole('button', { name: 'Take these values to the plan' }).click();
  await page.waitForURL('**/plan/');
  return JSON.parse((await page.evaluate(() => sessionStorage.getItem('dipwise:handover')))!) as Handover;
}

function photoCalled(file: string): Photo {
  const photo = truth.photos.find((one) => one.file === file);
  if (!photo) throw new Error(`sample-images has no ${file}`);
  return photo;
}
