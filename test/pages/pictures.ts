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

interface MadeWith {
  readonly browser: string;
  /** SHA-256 of the three cuts, one after the other. */
  readonly typeface: string;
}

const RECORD = new URL('looks/made-with.json', import.meta.url);

/** @returns why the pictures can't be compared here, or null */
export function whyNoPictures(browser: string): string | null {
  const hash = createHash('sha256');
  for (const font of fontsOf('/')) hash.update(readFileSync(fileOf(font)));
  const here: MadeWith = { browser, typeface: hash.digest('hex').slice(0, 16) };
  if (['all', 'changed'].includes(test.info().config.updateSnapshots)) {
    writeFileSync(RECORD, `${JSON.stringify(here)}\n`);
    return null;
  }
  const recorded = JSON.parse(readFileSync(RECORD, 'utf8')) as MadeWith;
  const other = (['browser', 'typeface'] as const).filter((part) => here[part] !== recorded[part]);
  if (other.length === 0) return null;
  return `the pictures were made with ${other.map((part) => `${part} ${recorded[part]}, this is ${here[part]}`).join('; ')}`;
}

/** On a phone and on a laptop. @param varying parts that differ from run to run */
export async function expectPicture(page: Page, name: string, of: Locator, varying: Locator[] = []): Promise<void> {
  await page.emulateMedia({ reducedMotion: 'reduce', colorScheme: 'light' });
  await bringFaces(page);
  await setFace(page, 'shipped');
  for (const width of [390, 1280]) {
    await page.setViewportSize({ width, height: 1600 });
    await expect(of).toHaveScreenshot(`${name}-${width}.png`, {
      mask: varying,
      threshold: 0.2,
      // Where the same browser draws the same face nothing differs; this is a block of 20 x 20 px.
      maxDiffPixels: 400,
    });
  }
}
