import { expect, type Page, test } from '@playwright/test';
import { expectReading, THREE_MINUTES } from './taught.ts';
import { marking, openTeaching, rowFields, ROWS, sheetOf, STRIP, tabTo, valuesOf } from './teaching.ts';

test('a scale is taught by keyboard alone', { tag: '@release' }, async ({ page }) => {
  const began = Date.now();
  await openTeaching(page);
  await tabTo(page, page.locator('summary', { hasText: 'Practise with a simulated one' }));
  await page.keyboard.press('Enter');
  await tabTo(page, page.locator('.chart-step button.sample').first());
  await page.keyboard.press('Enter');
  await expect(marking(page)).toBeVisible();
  await tabTo(page, page.getByRole('button', { name: 'No, I mark them myself' }));
  await page.keyboard.press('Enter');
  await expect(sheetOf(page)).toBeFocused();
  let keys = 0;
  for (const [i, { blocks }] of ROWS.entries()) {
    keys += await steerTo(page, blocks[0]!);
    await page.keyboard.press('r');
    keys += await steerTo(page, blocks.at(-1)!);
    await page.keyboard.press('r');
    keys += 2 + String(blocks.length).length + 1;
    await expect(page.getByLabel(/How many blocks/)).toBeFocused();
    await page.keyboard.type(String(blocks.length));
    await page.keyboard.press('Enter');
    await expect(rowFields(page)).toHaveCount(i + 1);
    await expect(sheetOf(page)).toBeFocused();
  }
  // A whole chart that wasn't found by itself.
  expect(keys).toBeLessThan(80);
  // One block is taken out and marked again.
  await steerTo(page, ROWS[3]!.blocks[2]!);
  await page.keyboard.press('Delete');
  await expect(page.locator('.said')).toContainText('row 4 has 4 blocks');
  await tabTo(page, rowFields(page).nth(0).getByLabel('Blocks I tap go here'));
  await page.keyboard.press('Space');
  for (let down = 0; down < 3; down++) await page.keyboard.press('ArrowDown');
  await expect(rowFields(page).nth(3)).toHaveClass(/current/);
  await tabTo(page, sheetOf(page), 'Shift+Tab');
  await page.keyboard.press('Enter');
  await expect(page.locator('.said')).toContainText('row 4 has 5 blocks');
  for (const [i, row] of ROWS.entries()) {
    await tabTo(page, rowFields(page).nth(i).getByLabel('Measures'));
    await page.keyboard.type(NAMES[row.parameter]!);
    await tabTo(page, page.getByLabel(`Row ${i + 1}, value of block 1`, { exact: true }));
    for (const value of valuesOf(row)) {
      await page.keyboard.type(value);
      await page.keyboard.press('Tab');
    }
  }
  await tabTo(page, page.getByRole('button', { name: 'Go on with these rows' }));
  await page.keyboard.press('Enter');
  await typeStrip(page);
  await tabTo(page, page.getByLabel('Name of the strip'));
  await page.keyboard.type('Garden strip');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { name: 'The scale is kept' })).toBeFocused();
  expect(Date.now() - began).toBeLessThan(THREE_MINUTES);
  await tabTo(page, page.getByRole('link', { name: 'Read a strip with it' }));
  await page.keyboard.press('Enter');
  await expectReading(page);
});

/** Enough letters for a list box to choose by. */
const NAMES: Record<string, string> = {
  'free-chlorine': 'Free',
  ph: 'pH',
  'total-alkalinity': 'Total a',
  'cyanuric-acid': 'Cyan',
};

/** The strip measured with a ruler. */
async function typeStrip(page: Page): Promise<void> {
  const [first, second] = STRIP.pads as [(typeof STRIP.pads)[0], (typeof STRIP.pads)[0]];
  await tabTo(page, page.locator('summary', { hasText: 'Measure with a ruler' }));
  await page.keyboard.press('Enter');
  for (const [label, value] of [
    [/middle of the first pad/, first.centreMm],
    [/from one middle to the next/, second.centreMm - first.centreMm],
    [/length of a pad/, first.widthMm],
  ] as const) {
    await tabTo(page, page.getByLabel(label));
    await page.keyboard.type(String(value));
  }
  await tabTo(page, page.getByRole('button', { name: 'Fill in all pads' }));
  await page.keyboard.press('Enter');
  await tabTo(page, page.getByLabel('Length of the strip'));
  await page.keyboard.type(String(STRIP.lengthMm));
  await tabTo(page, page.getByLabel('Width, mm'));
  await page.keyboard.type(String(STRIP.widthMm));
  // The chart's rows run from the far end of this strip to its tip.
  await tabTo(page, page.getByRole('button', { name: 'Turn the order round' }));
  await page.keyboard.press('Enter');
  for (const [label, value] of [
    ['Dip for', STRIP.dipSeconds],
    ['Read from', STRIP.readAfterSeconds],
    ['until', STRIP.readBeforeSeconds],
  ] as const) {
    await tabTo(page, page.getByLabel(label));
    await page.keyboard.type(String(value));
  }
  await tabTo(page, page.getByRole('button', { name: 'Go on with this strip' }));
  await page.keyboard.press('Enter');
}

/** Moves the crosshair with the arrow keys until it is well inside the block, and in sight. @returns keys pressed */
async function steerTo(page: Page, { x, y }: { x: number; y: number }): Promise<number> {
  for (let presses = 0; presses < 200; presses++) {
    const at = await page.locator('.board-overlay .cross').last().getAttribute('d');
    const [, left, middle, , width] = /^M([\d.-]+) ([\d.-]+)h(([\d.-]+))/.exec(at!) ?? [];
    const [dx, dy] = [x - (Number(left) + Number(width) / 2), y - Number(middle)];
    // Four millimetres make an arm of the cross.
    const mm = Number(width) / 8;
    if (Math.abs(dx) < 2 * mm && Math.abs(dy) < 2 * mm) {
      await expect(page.locator('.board-overlay .cross').last()).toBeInViewport();
      return presses;
    }
    const sideways = Math.abs(dx) >= Math.abs(dy);
    const far = Math.max(Math.abs(dx), Math.abs(dy)) > 9 * mm;
    const key = sideways ? (dx > 0 ? 'ArrowRight' : 'ArrowLeft') : dy > 0 ? 'ArrowDown' : 'ArrowUp';
    await page.keyboard.press(far ? `Shift+${key}` : key);
  }
  throw new Error('the crosshair never came there');
}
