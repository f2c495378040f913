/** The live camera, with a film of a practice photo in front of the browser's fake device. */
import { expect } from '@playwright/test';
import { barriersOn } from './accessible.ts';
import { open, openReadPage, openWhileWaiting, test, tracks, view } from './filmed.ts';
import { expectSoundLayout } from './layout/layout.ts';
import { ORDINARY, sheet } from './reading.ts';

test('takes the picture by itself, and its values are right', async ({ page }) => {
  await openReadPage(page);
  await open(page).click();
  await expect(sheet(page)).toBeVisible();
  await expect(view(page)).toBeHidden();
  expect(await tracks(page)).toEqual({ stopped: 1, state: 'ended' });
  await page.getByRole('button', { name: 'Take these values to the plan' }).click();
  await page.waitForURL('**/plan/');
  const handed = JSON.parse((await page.evaluate(() => sessionStorage.getItem('dipwise:handover')))!) as {
    measurements: { quantity: string; low: number; high: number }[];
  };
  const truths = Object.entries(ORDINARY.values);
  expect(handed.measurements).toHaveLength(truths.length);
  for (const [parameter, truth] of truths) {
    const { low, high } = handed.measurements.find((one) => one.quantity === parameter)!;
    expect(truth, parameter).toBeGreaterThanOrEqual(low);
    expect(truth, parameter).toBeLessThanOrEqual(high);
  }
});

test(
  'waits for the window, goes on looking, and takes the picture inside it',
  { tag: '@release' },
  async ({ page }) => {
    await openReadPage(page);
    await openWhileWaiting(page);
    await expect(view(page).locator('.camera-hint')).toHaveText(/Good\. Keep it there/);
    await expect(view(page).locator('.camera-overlay .card.good:not(.halo)')).toHaveCount(1);
    await expect(view(page).locator('.timer-word')).toHaveText('Wait');
    await expect(sheet(page)).toBeVisible({ timeout: 40_000 });
    const seconds = Number(await page.getByLabel('Seconds from dip to photo').inputValue());
    expect(seconds).toBeGreaterThanOrEqual(20);
    expect(seconds).toBeLessThanOrEqual(45);
    await expect(sheet(page).locator('.timing')).toHaveCount(0);
  },
);

test('the open camera is accessible, holds in every width and face, and the shutter works by key', async ({ page }) => {
  test.slow();
  await page.setViewportSize({ width: 390, height: 844 });
  await openReadPage(page);
  await openWhileWaiting(page);
  // The window doesn't open meanwhile: nothing is photographed.
  await page.clock.setFixedTime(await page.evaluate(() => Date.now()));
  expect(await barriersOn(page)).toEqual([]);
  await expectSoundLayout(page);
  await expect(view(page).getByLabel('torch')).toBeHidden();
  const shutter = page.getByRole('button', { name: 'Take the photo' });
  await expect(shutter).toBeInViewport();
  await shutter.press('Enter');
  await expect(sheet(page)).toBeVisible();
});

test('is let go when it is closed, when the page is hidden, and when the page is left', async ({ page }) => {
  await openReadPage(page);
  await openWhileWaiting(page);
  await page.getByRole('button', { name: 'Close the camera' }).click();
  await expect(page.getByText('The camera is off.')).toBeVisible();
  await expect(open(page)).toBeFocused();
  expect(await tracks(page)).toEqual({ stopped: 1, state: 'ended' });

  await open(page).click();
  await expect(view(page)).toBeVisible();
  await page.evaluate(() => {
    Object.defineProperty(document, 'visibilityState', { configurable: true, get: () => 'hidden' });
    document.dispatchEvent(new Event('visibilitychange'));
    Reflect.deleteProperty(document, 'visibilityState');
  });
  await expect(page.getByText('switched off while the page was out of sight')).toBeVisible();
  expect(await tracks(page)).toEqual({ stopped: 2, state: 'ended' });

  await open(page).click();
  await expect(view(page)).toBeVisible();
  await page.goto('/learn/');
  expect(await tracks(page)).toEqual({ stopped: 3, state: 'ended' });
});

test('a photo chosen while the camera is open closes it', { tag: '@release' }, async ({ page }) => {
  await openReadPage(page);
  await openWhileWaiting(page);
  await page.setInputFiles('#photo', `sample-images/${ORDINARY.file}`);
  await expect(sheet(page)).toBeVisible();
  await expect(view(page)).toBeHidden();
  expect(await tracks(page)).toEqual({ stopped: 1, state: 'ended' });
});

test('without photos of its own the camera gives a full frame', { tag: '@release' }, async ({ page }) => {
  await page.addInitScript(() => Reflect.deleteProperty(window, 'ImageCapture'));
  await openReadPage(page);
  await open(page).click();
  await expect(sheet(page)).toBeVisible();
});

test('a camera that gives no photo when asked gives a frame', { tag: '@release' }, async ({ page }) => {
  await page.addInitScript(() => {
    ImageCapture.prototype.takePhoto = () => Promise.reject(new DOMException('no', 'UnknownError'));
  });
  await openReadPage(page);
  await open(page).click();
  await expect(sheet(page)).toBeVisible();
});

test.describe('where it is not allowed', () => {
  test.use({ permissions: [] });

  test('says so in a sentence and offers the camera app', async ({ page }) => {
    await openReadPage(page);
    await open(page).click();
    await expect(page.locator('.camera-why')).toContainText('The camera was not allowed');
    await expect(page.getByText('Take it with the camera app')).toBeVisible();
    await expect(page.locator('#photo-app')).toHaveAttribute('capture', 'environment');
    await expect(page.locator('#photo-app')).toBeFocused();
    expect(await barriersOn(page, 'read-desk')).toEqual([]);
    await page.setInputFiles('#photo-app', `sample-images/${ORDINARY.file}`);
    await expect(sheet(page)).toBeVisible();
  });
});

const HINDRANCES: readonly (readonly [name: string, says: RegExp, stub: () => void])[] = [
  [
    'no secure address',
    /needs a secure address/,
    () => Object.defineProperty(window, 'isSecureContext', { value: false }),
  ],
  [
    'a browser without cameras',
    /cannot show the camera/,
    () => Object.defineProperty(Navigator.prototype, 'mediaDevices', { value: undefined }),
  ],
];

for (const [name, says, stub] of HINDRANCES) {
  test(`${name}: the camera app is offered at once`, async ({ page }) => {
    await page.addInitScript(stub);
    await openReadPage(page);
    await expect(page.locator('.camera-why')).toContainText(says);
    await expect(page.getByText('Take it with the camera app')).toBeVisible();
    await expect(open(page)).toBeHidden();
  });
}
