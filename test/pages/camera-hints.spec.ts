/** The live camera over a card on which no strip lies. */
import { expect } from '@playwright/test';
import { open, openReadPage, test, view } from './filmed.ts';
import { refusalOn } from './reading.ts';

test.use({ photo: 'sample-images/refused/no-strip.jpg' });

test(
  'says what is missing, and a photo all the same is refused and can be taken again',
  { tag: '@release' },
  async ({ page }) => {
    await openReadPage(page);
    await open(page).click();
    await expect(view(page)).toHaveAttribute('data-hint', 'lay-strip');
    await expect(view(page).locator('.camera-hint')).toHaveText('Lay the strip in the grey slot, pads up.');
    await expect(view(page).getByRole('status')).toHaveText('Lay the strip in the grey slot, pads up.');
    // However often it looks, it doesn't take the picture.
    await view(page).evaluate(
      (camera) =>
        new Promise<void>((done) => {
          let left = 16;
          camera.addEventListener('looked', () => --left === 0 && done());
        }),
    );
    await expect(view(page)).toBeVisible();
    await page.getByRole('button', { name: 'Take the photo' }).click();
    await expect(refusalOn(page)).toContainText('No strip was found');
    await page.getByRole('button', { name: 'Open the camera again' }).click();
    await expect(view(page)).toBeVisible();
  },
);
