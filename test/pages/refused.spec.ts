/** What can't be read, or isn't to be: it is said why, and nothing that was read is lost. */
import { expect, test } from '@playwright/test';
import { refusalMessage } from '../../src/words/reading.ts';
import type { RefusalCode } from '../../src/core/reading/reading.ts';
import { openDesk, ORDINARY, readFrom, REFUSED, refusalOn, sheet, TWELVE_MEGAPIXELS } from './reading.ts';

test('every photo that can’t be read is refused with what is wrong and what to do', async ({ page }) => {
  test.slow();
  await openDesk(page);
  for (const photo of REFUSED) {
    await test.step(photo.file, async () => {
      await readFrom(page, photo);
      const { wrong, remedy } = refusalMessage(photo.refused as RefusalCode);
      await expect(refusalOn(page)).toContainText(wrong);
      await expect(refusalOn(page)).toContainText(remedy);
      await expect(refusalOn(page).locator('img, canvas')).toBeVisible();
      await expect(sheet(page)).toHaveCount(0);
    });
  }
});

const FILES: readonly [name: string, mimeType: string, content: Buffer, says: RegExp][] = [
  ['holiday.jpg', 'image/jpeg', Buffer.from('this is no picture'), /could not be opened as a picture/],
  ['nothing.png', 'image/png', Buffer.alloc(0), /is empty/],
  ['drawing.svg', 'image/svg+xml', Buffer.from('<svg xmlns="http://www.w3.org/2000/svg"/>'), /a drawing, not a photo/],
  ['phone.heic', 'image/heic', Buffer.from('\0\0\0\x18ftypheic\0\0\0\0'), /saved as HEIC/],
  [
    'dot.png',
    'image/png',
    Buffer.from(
      'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNkYPhfDwAChwGA60e6kgAAAABJRU5ErkJggg==',
      'base64',
    ),
    /too small/,
  ],
];

test('a file that is no photo is refused with what is wrong, and the next photo is read', async ({ page }) => {
  await openDesk(page);
  for (const [name, mimeType, buffer, says] of FILES) {
    await page.setInputFiles('#photo', { name, mimeType, buffer });
    await expect(refusalOn(page), name).toContainText(says);
  }
  await readFrom(page, ORDINARY);
  await expect(sheet(page)).toBeVisible();
});

test('reading can be cancelled, and started again', async ({ page }) => {
  // A reading that takes until it has been cancelled.
  let goOn: () => void = () => undefined;
  const cancelled = new Promise<void>((resolve) => (goOn = resolve));
  await page.route('**/worker-*.js', async (route) => {
    await cancelled;
    await route.continue().catch(() => undefined);
  });
  await openDesk(page);
  await readFrom(page, TWELVE_MEGAPIXELS);
  await page.getByRole('button', { name: 'Cancel' }).click();
  await expect(page.getByText('Cancelled.')).toBeVisible();
  goOn();
  await expect(sheet(page)).toHaveCount(0);
  await readFrom(page, ORDINARY);
  await expect(sheet(page)).toHaveCount(1);
});

test('a refused photo leaves the reading before it, which isn’t kept yet, on the page', async ({ page }) => {
  await openDesk(page);
  await readFrom(page, ORDINARY);
  await expect(sheet(page)).toBeVisible();
  await page.getByText('Add the water’s temperature or a note').click();
  await page.fill('#keep-note', 'Before the rain');
  await page.setInputFiles('#photo', `sample-images/${REFUSED[0]!.file}`);
  await expect(refusalOn(page)).toBeVisible();
  await expect(sheet(page)).toBeVisible();
  await expect(page.locator('#keep-note')).toHaveValue('Before the rain');
});

test('where the strip fits another scale of the shelf, that is said, and the photo is read with it', async ({
  page,
}) => {
  await openDesk(page);
  await readFrom(page, { ...ORDINARY, scale: 'practice-five' });
  await expect(refusalOn(page)).toContainText('Its pads lie as on');
  await expect(refusalOn(page).getByRole('button', { name: 'Choose another photo' })).toBeVisible();
  await refusalOn(page).getByRole('button', { name: 'Read it with that scale' }).first().click();
  await expect(sheet(page).locator('.pad')).toHaveCount(Object.keys(ORDINARY.values).length);
});
