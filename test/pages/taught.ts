/** What holds for a scale however it was taught. */
import { expect, type Page } from '@playwright/test';
import { handedOn, sheet } from './reading.ts';
import { pathOf, READING, STRIP } from './teaching.ts';

/** What a newcomer is given for a chart of four rows and its strip. */
export const THREE_MINUTES = 180_000;

export async function expectPads(page: Page): Promise<void> {
  const rows = page.locator('.pad-table tbody tr');
  await expect(rows).toHaveCount(STRIP.pads.length);
  for (const [i, pad] of STRIP.pads.entries()) {
    await expect(rows.nth(i).getByRole('combobox')).toHaveValue(pad.parameter);
    const middle = Number(await rows.nth(i).getByRole('textbox').first().inputValue());
    expect(Math.abs(middle - pad.centreMm)).toBeLessThan(0.8);
  }
}

/** The later photo, read with the scale just taught, which is chosen already: every interval holds the truth. */
export async function expectReading(page: Page): Promise<void> {
  await expect(page.locator('read-desk')).toHaveAttribute('data-scales', '3');
  await expect(page.locator('#scale')).toHaveValue('garden-strip');
  await page.setInputFiles('#photo', pathOf(READING));
  await expect(sheet(page)).toBeVisible();
  const handed = await handedOn(page);
  expect(handed[0]!.scale).toMatchObject({ id: 'garden-strip', origin: 'taught' });
  expect(handed.map(({ quantity }) => quantity)).toEqual(STRIP.pads.map(({ parameter }) => parameter));
  for (const { quantity, low, high } of handed) {
    const true_ = READING.values![quantity]!;
    expect(low, quantity).toBeLessThanOrEqual(true_);
    expect(high, quantity).toBeGreaterThanOrEqual(true_);
  }
}
