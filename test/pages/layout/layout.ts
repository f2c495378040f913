/** What must hold of a page's layout in every width and face: nothing sideways, clipped, overlapping or too small to hit. */
import { expect, type Page } from '@playwright/test';
import { bringFaces, FACES, type Face, setFace } from './faces.ts';
import { faultsIn } from './faults.ts';

/** CSS px: the narrowest window of WCAG 2.2 (1.4.10), three common phones, a tablet upright, a small laptop. */
export const WIDTHS = [320, 360, 390, 412, 768, 1280] as const;

const HEIGHT = 900;

/** Where another face than the site's is most likely to break what holds elsewhere. */
const TIGHTEST: readonly number[] = [320, 768];

interface Trial {
  /** A selector of the part that is looked at; the whole page if left out. */
  readonly within?: string;
  /** The site's own face in every width, the others in the tightest two. */
  readonly isShort?: boolean;
}

export async function expectSoundLayout(page: Page, { within = 'body', isShort = false }: Trial = {}): Promise<void> {
  await page.emulateMedia({ reducedMotion: 'reduce' });
  await bringFaces(page);
  const before = page.viewportSize();
  const found: string[] = [];
  for (const width of WIDTHS) {
    await page.setViewportSize({ width, height: HEIGHT });
    const faces: readonly Face[] = isShort && !TIGHTEST.includes(width) ? ['shipped'] : FACES;
    for (const face of faces) {
      await setFace(page, face);
      const faults = await page.evaluate(faultsIn, within);
      found.push(...faults.map((fault) => `${width} px, ${face}: ${fault}`));
    }
  }
  await setFace(page, 'shipped');
  if (before) await page.setViewportSize(before);
  expect(found).toEqual([]);
}
