import { expect, type Page, test } from '@playwright/test';
import { settled } from './moments.ts';
import { expectPads, expectReading, THREE_MINUTES } from './taught.ts';
import {
  CHART,
  fillTimes,
  keepAs,
  onScreen,
  openTeaching,
  pathOf,
  rowFields,
  ROWS,
  sheetOf,
  valuesOf,
} from './teaching.ts';

test.use({ hasTouch: true, isMobile: true, viewport: { width: 390, height: 844 } });

test('a scale is taught by touch, on a phone', { tag: '@release' }, async ({ page }) => {
  const began = Date.now();
  await openTeaching(page);
  await page.setInputFiles('#chart-photo', pathOf(CHART));
  await page.getByRole('button', { name: 'No, I mark them myself' }).tap();
  await page.getByRole('button', { name: 'Larger' }).tap();
  const tapped = ROWS.slice(0, 3);
  for (const [i, { blocks }] of tapped.entries()) {
    if (i > 0) await page.getByRole('button', { name: 'Begin a new row' }).tap();
    for (const [k, block] of blocks.entries()) {
      const { x, y } = await onScreen(page, block);
      await page.touchscreen.tap(x, y);
      await expect(rowFields(page).nth(i).locator('.blocks li')).toHaveCount(k + 1);
    }
  }
  await expect(page.locator('.magnifier')).toBeVisible();
  await page.getByLabel('Drag along a row').check();
  const last = ROWS.at(-1)!.blocks;
  await dragByFinger(page, await onScreen(page, last[0]!), (last.at(-1)!.x - last[0]!.x) * (await scaleOf(page)));
  await page.getByLabel(/How many blocks/).fill(String(last.length));
  await page.getByRole('button', { name: 'Mark them' }).tap();
  await expect(rowFields(page).nth(3).locator('.blocks li')).toHaveCount(last.length);
  for (const [i, row] of ROWS.entries()) {
    const first = page.getByLabel(`Row ${i + 1}, value of block 1`, { exact: true });
    await first.tap();
    await first.fill(valuesOf(row).join(', '));
    await rowFields(page).nth(i).getByLabel('Measures').selectOption(row.parameter);
  }
  await page.getByRole('button', { name: 'Go on with these rows' }).tap();
  await page.setInputFiles('#strip-photo', 'sample-images/charts/strip-dry.jpg');
  await expectPads(page);
  await fillTimes(page);
  await page.getByRole('button', { name: 'Go on with this strip' }).tap();
  await keepAs(page, 'Garden strip');
  expect(Date.now() - began).toBeLessThan(THREE_MINUTES);
  await page.getByRole('link', { name: 'Read a strip with it' }).tap();
  await expectReading(page);
});

async function scaleOf(page: Page): Promise<number> {
  return (await sheetOf(page).evaluate((sheet) => sheet.clientWidth)) / CHART.widthPx;
}

/** One finger from a place to the right; the rows of the sample lie nearly level. */
async function dragByFinger(page: Page, from: { x: number; y: number }, byX: number): Promise<void> {
  const session = await page.context().newCDPSession(page);
  const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', touchPoints: { x: number; y: number }[]) =>
    session.send('Input.dispatchTouchEvent', { type, touchPoints });
  await touch('touchStart', [from]);
  // Lifted in full swing, the finger would fling, and the browser take the next tap for a halt: it rests first.
  for (const share of [0.3, 0.7, ...Array.from({ length: 12 }, () => 1)]) {
    await touch('touchMove', [{ x: from.x + share * byX, y: from.y }]);
    await settled(page);
  }
  await expect(page.locator('.magnifier')).toBeVisible();
  await touch('touchEnd', []);
}
