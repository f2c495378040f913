/** On a machine without a camera: the browser is started as for every other test. */
import { expect, test } from '@playwright/test';
import { openDesk } from './reading.ts';

test.use({ permissions: ['camera'] });

test('says that there is no camera and offers the camera app', async ({ page }) => {
  await openDesk(page);
  const cameras = await page.evaluate(async () => {
    const devices = await navigator.mediaDevices.enumerateDevices();
    return devices.filter(({ kind }) => kind === 'videoinput').length;
  });
  test.skip(cameras > 0, 'this machine has a camera');
  await page.getByRole('button', { name: 'Open the camera' }).click();
  await expect(page.locator('.camera-why')).toContainText('No camera was found');
  await expect(page.getByText('Take it with the camera app')).toBeVisible();
});
