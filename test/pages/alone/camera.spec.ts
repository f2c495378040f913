import { expect } from '@playwright/test';
import { openReadPage, openWhileWaiting, test, view } from '../filmed.ts';

test('looks at three to eight frames of the preview a second while nothing moves', async ({ page }) => {
  await openReadPage(page);
  await openWhileWaiting(page);
  await expect(view(page).locator('.camera-hint')).toHaveText(/Good\. Keep it there/);
  const rates = await page.evaluate(async () => {
    const camera = document.querySelector('camera-view')!;
    const seconds: number[] = [];
    for (let second = 0; second < 8; second++) {
      let looked = 0;
      const count = () => looked++;
      camera.addEventListener('looked', count);
      await new Promise((resolve) => setTimeout(resolve, 1000));
      camera.removeEventListener('looked', count);
      seconds.push(looked);
    }
    return seconds;
  });
  console.log(`frames looked at, second by second: ${rates.join(', ')}`);
  // The better half: what a system does now and then on its own account isn't the page's doing.
  expect(rates.sort((a, b) => b - a)[3]).toBeGreaterThanOrEqual(3);
  // A phone that looks all the time gets hot.
  expect(rates[0]).toBeLessThanOrEqual(8);
});
