/** A film of a practice photo in front of the browser's fake camera, and steps that the camera's tests share. */
import { expect, test as base, type Page } from '@playwright/test';
import { openDesk, ORDINARY } from './reading.ts';
import { filmOf } from './y4m.ts';

/** As a phone's preview. */
const FILM_PX = 1632;

export const test = base.extend<object, { photo: string }>({
  permissions: ['camera'],
  photo: [`sample-images/${ORDINARY.file}`, { option: true, scope: 'worker' }],
  launchOptions: [
    async ({ launchOptions, photo }, use) => {
      const film = await filmOf(photo, FILM_PX);
      const camera = ['--use-fake-device-for-media-stream', `--use-file-for-fake-video-capture=${film}`];
      await use({ ...launchOptions, args: [...(launchOptions.args ?? []), ...camera] });
    },
    { scope: 'worker' },
  ],
});

export const view = (page: Page) => page.locator('camera-view');
export const open = (page: Page) => page.getByRole('button', { name: 'Open the camera', exact: true }).first();

/** Opens the read page with an eye on the camera's tracks. */
export async function openReadPage(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const stop = MediaStreamTrack.prototype.stop;
    MediaStreamTrack.prototype.stop = function () {
      stop.call(this);
      const stopped = Number(sessionStorage.getItem('stopped') ?? 0) + 1;
      sessionStorage.setItem('stopped', String(stopped));
      sessionStorage.setItem('state', this.readyState);
    };
  });
  await openDesk(page);
  await page.selectOption('#scale', ORDINARY.scale);
}

export const tracks = (page: Page) =>
  page.evaluate(() => ({
    stopped: Number(sessionStorage.getItem('stopped') ?? 0),
    state: sessionStorage.getItem('state'),
  }));

/** Waits for the window to open meanwhile: nothing is photographed before. */
export async function openWhileWaiting(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'It has just come out' }).click();
  await open(page).click();
  await expect(view(page)).toBeVisible();
  await expect(view(page)).toHaveAttribute('data-hint', 'good');
}
