/** Steps that the tests of the read page share. */
import { expect, type Page } from '@playwright/test';
import { readFileSync } from 'node:fs';
import type { Measurement } from '../../src/core/measurement/measurement.ts';

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

/** What the system does with a share target: a form with the file, sent to the action of the manifest. */
export async function sharePhoto(page: Page, photo: { file: string; scale: string }, action: string): Promise<void> {
  const base64 = readFileSync(`sample-images/${photo.file}`).toString('base64');
  await page.evaluate((scale) => localStorage.setItem('dipwise:scale', scale), photo.scale);
  await page.evaluate(
    ([content, to]) => {
      const form = document.createElement('form');
      Object.assign(form, { action: to, method: 'post', enctype: 'multipart/form-data' });
      const input = Object.assign(document.createElement('input'), { type: 'file', name: 'photo' });
      const bytes = Uint8Array.from(atob(content), (character) => character.charCodeAt(0));
      const transfer = new DataTransfer();
      transfer.items.add(new File([bytes], 'shared.jpg', { type: 'image/jpeg' }));
      input.files = transfer.files;
      form.append(input);
      document.body.append(form);
      form.submit();
    },
    [base64, action] as const,
  );
}

/** The values that the sheet hands on, exactly as computed. */
export async function handedOn(page: Page): Promise<Measurement[]> {
  await page.getByRole('button', { name: 'Take these values to the plan' }).click();
  await page.waitForURL('**/plan/');
  const kept = await page.evaluate(() => sessionStorage.getItem('dipwise:handover'));
  return (JSON.parse(kept!) as { measurements: Measurement[] }).measurements;
}

function photoCalled(file: string): Photo {
  const photo = truth.photos.find((one) => one.file === file);
  if (!photo) throw new Error(`sample-images has no ${file}`);
  return photo;
}
