/**
 * Pictures against those that were looked at and found good, small enough that letters blur and layout shows. After a
 * change that is meant: `npm run pages -- looks --update-snapshots`, and look at what has changed.
 */
import { expect, type Locator, type Page } from '@playwright/test';
import { overflow } from './built.ts';
import { withTextOf } from './text-size.ts';

/** The upper part of a page, CSS px: below, its parts come again. */
const HEIGHT = 1600;

/** The window that pictures are taken in: letters come out at a fourth of their size. */
export const SMALL = { deviceScaleFactor: 0.25, contextOptions: { reducedMotion: 'reduce' } } as const;

export interface Way {
  readonly name: string;
  readonly width: number;
  readonly media?: Parameters<Page['emulateMedia']>[0];
  /** Ordinary text, px. */
  readonly textPx?: number;
}

/** Every width, theme and medium, not each with each. */
export const WAYS = [
  { name: '360', width: 360 },
  { name: '390-dark', width: 390, media: { colorScheme: 'dark' } },
  { name: '390-large', width: 390, textPx: 32 },
  { name: '768-forced', width: 768, media: { forcedColors: 'active' } },
  { name: '768-print', width: 768, media: { media: 'print' } },
  { name: '1280', width: 1280 },
] as const satisfies readonly Way[];

/** @param part.of what is looked at, the top of the page if left out */
export async function expectLook(
  page: Page,
  kind: string,
  { name, width, media, textPx }: Way,
  { of, varying = [] }: { of?: Locator; varying?: Locator[] } = {},
): Promise<void> {
  await page.emulateMedia({
    colorScheme: 'light',
    forcedColors: 'none',
    media: 'screen',
    ...media,
  });
  await page.setViewportSize({ width, height: HEIGHT });
  const options = {
    scale: 'device',
    mask: varying,
    // Another edition of the browser draws edges a little differently; a block that moves is ten times this.
    threshold: 0.25,
    maxDiffPixelRatio: 0.02,
  } as const;
  const file = [kind, `${name}.png`];
  const compare = async () => {
    expect(await overflow(page), `${kind} at ${name} px`).toBeLessThanOrEqual(0);
    await (of ? expect(of).toHaveScreenshot(file, options) : expect(page).toHaveScreenshot(file, options));
  };
  await (textPx ? withTextOf(page, textPx, compare) : compare());
}
