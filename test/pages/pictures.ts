/**
 * Pictures that were looked at and found good. They say nothing where another browser or another cut of the typeface
 * drew them, so there they are left out. With `--update-snapshots` they are taken anew, and what drew them is
 * written down beside them: look at them before you commit.
 */
import { expect, type Locator, type Page, test } from '@playwright/test';
import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { fileOf, fontsOf } from '../built/files.ts';
import { bringFaces, setFace } from './layout/faces.ts';
import { openDesk, ORDINARY, readFrom, sheet } from './reading.ts';

interface MadeWith {
  readonly browser: string;
  /** SHA-256 of the three cuts, one after the other. */
  readonly typeface: string;
  /** Of a line of letters as it is drawn here: systems smooth and align them in their own ways. */
  readonly drawing: string;
}

const RECORD = new URL('looks/made-with.json', import.meta.url);

/** @returns why the pictures can't be compared here, or null */
export async function whyNoPictures(page: Page, browser: string): Promise<string | null> {
  const hash = createHash('sha256');
  for (const font of fontsOf('/')) hash.update(readFileSync(fileOf(font)));
  const here: MadeWith = { browser, typeface: hash.digest('hex').slice(0, 16), drawing: await drawingOn(page) };
  if (isUpdating()) {
    writeFileSync(RECORD, `${JSON.stringify(here)}\n`);
    return null;
  }
  const recorded = JSON.parse(readFileSync(RECORD, 'utf8')) as MadeWith;
  const other = (['browser', 'typeface', 'drawing'] as const).filter((part) => here[part] !== recorded[part]);
  if (other.length === 0) return null;
  return `the pictures were made with ${other.map((part) => `${part} ${recorded[part]}, this is ${here[part]}`).join('; ')}`;
}

async function drawingOn(page: Page): Promise<string> {
  await page.goto('/learn/');
  await bringFaces(page);
  await page.evaluate(() => {
    const line = Object.assign(document.createElement('p'), { id: 'line', textContent: 'Sphinx 0123456789 pH' });
    line.style.cssText =
      "position: fixed; inset: 0 auto auto 0; margin: 0; background: #fff; font: 18px 'Trial shipped'";
    document.body.append(line);
  });
  return createHash('sha256')
    .update(await page.locator('#line').screenshot())
    .digest('hex')
    .slice(0, 16);
}

const READING = new URL('looks/reading.json', import.meta.url);

/**
 * A reading that stays as it is, whatever becomes of the reader, as it waits in a tab: the practice photo's, without its
 * card. Taken anew with the pictures.
 */
export async function openKeptReading(page: Page): Promise<void> {
  if (isUpdating()) {
    await openDesk(page);
    await readFrom(page, ORDINARY);
    await expect(sheet(page)).toBeVisible();
    const waiting = await page.evaluate(() => sessionStorage.getItem('dipwise:unkept'));
    const reading = { ...(JSON.parse(waiting!) as object), picture: null, time: '2026-06-15T11:58:00.000Z' };
    writeFileSync(READING, `${JSON.stringify(reading)}\n`);
  }
  const kept = readFileSync(READING, 'utf8');
  await page.addInitScript((text) => sessionStorage.setItem('dipwise:unkept', text), kept);
  await openDesk(page);
  await expect(sheet(page)).toBeVisible();
}

/** Where the same browser draws the same face nothing differs; the smallest mark of a ribbon has more ink than this. */
const ALIKE = { threshold: 0.2, maxDiffPixels: 20 };

/**
 * On a phone and on a laptop.
 * @param parts selectors of what is in it: each is taken away in turn, and has to be missed
 */
export async function expectPicture(page: Page, name: string, of: Locator, parts: readonly string[]): Promise<void> {
  await page.emulateMedia({ reducedMotion: 'reduce', colorScheme: 'light' });
  await bringFaces(page);
  await setFace(page, 'shipped');
  for (const width of [390, 1280]) {
    await page.setViewportSize({ width, height: 1600 });
    const file = `${name}-${width}.png`;
    await expect(of).toHaveScreenshot(file, ALIKE);
    if (isUpdating()) continue;
    for (const selector of parts) {
      const part = of.locator(selector).first();
      await part.evaluate((element: HTMLElement) => (element.style.visibility = 'hidden'));
      const compared = expect(of).toHaveScreenshot(file, { ...ALIKE, timeout: 1500 });
      expect(
        await compared.then(
          () => 'alike',
          () => 'another',
        ),
        `${selector} is lost`,
      ).toBe('another');
      await part.evaluate((element: HTMLElement) => (element.style.visibility = ''));
    }
  }
}

function isUpdating(): boolean {
  return ['all', 'changed'].includes(test.info().config.updateSnapshots);
}
