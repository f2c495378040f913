import { expect, type Page, test } from '@playwright/test';
import { barriersOn } from './accessible.ts';
import { handedOn, sheet } from './reading.ts';
import {
  CHART,
  fillTimes,
  keepAs,
  marking,
  onScreen,
  openTeaching,
  pathOf,
  READING,
  rowFields,
  ROWS,
  SECOND_LIGHT,
  sheetOf,
  STRIP,
  tabTo,
  teachQuickly,
  valuesOf,
} from './teaching.ts';

const THREE_MINUTES = 180_000;

test('a newcomer teaches a scale by mouse, and reads a later photo with it', async ({ page }) => {
  const began = Date.now();
  await openTeaching(page);
  await page.getByText('Practise with a simulated one').click();
  await page.locator('.chart-step button.sample').first().click();
  await expect(marking(page).getByRole('heading', { name: 'Mark the blocks' })).toBeFocused();
  await page.getByRole('button', { name: 'No, I mark them myself' }).click();
  for (const [i, { blocks }] of ROWS.entries()) {
    const [from, to] = [blocks[0]!, blocks.at(-1)!];
    const start = await onScreen(page, from);
    await page.mouse.move(start.x, start.y);
    await page.mouse.down();
    const end = await page.evaluate(() => document.querySelector('.board-sheet')!.clientWidth);
    const scale = end / CHART.widthPx;
    await page.mouse.move(start.x + (to.x - from.x) * scale * 0.6, start.y + (to.y - from.y) * scale * 0.6);
    await expect(page.locator('.magnifier')).toBeVisible();
    await page.mouse.move(start.x + (to.x - from.x) * scale, start.y + (to.y - from.y) * scale);
    await page.mouse.up();
    await page.getByLabel(/How many blocks/).fill(String(blocks.length));
    await page.getByRole('button', { name: 'Mark them' }).click();
    await expect(rowFields(page)).toHaveCount(i + 1);
  }
  for (const [i, row] of ROWS.entries()) {
    await rowFields(page).nth(i).getByLabel('Measures').selectOption(row.parameter);
    for (const [k, value] of valuesOf(row).entries()) {
      await page.getByLabel(`Row ${i + 1}, value of block ${k + 1}`, { exact: true }).fill(value);
    }
  }
  await page.getByRole('button', { name: 'Go on with these rows' }).click();
  await page.getByText('Practise with a simulated strip').click();
  await page.locator('.strip-step button.sample').first().click();
  await expect(page.locator('.strip-step .photo-status')).toContainText('matched to the rows of the chart by colour');
  await expectPads(page);
  await fillTimes(page);
  await page.getByRole('button', { name: 'Go on with this strip' }).click();
  await keepAs(page, 'Garden strip');
  expect(Date.now() - began).toBeLessThan(THREE_MINUTES);
  await page.getByRole('link', { name: 'Read a strip with it' }).click();
  await expectReading(page);
});

test('by touch, on a phone', async ({ browser, baseURL }) => {
  const context = await browser.newContext({
    hasTouch: true,
    isMobile: true,
    viewport: { width: 390, height: 844 },
    ...(baseURL && { baseURL }),
  });
  const page = await context.newPage();
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
  await context.close();
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
  for (const share of [0.3, 0.7, 1, 1, 1]) {
    await touch('touchMove', [{ x: from.x + share * byX, y: from.y }]);
    // Lifted in full swing, the finger would fling, and the browser take the next tap for a halt.
    await page.waitForTimeout(100);
  }
  await expect(page.locator('.magnifier')).toBeVisible();
  await touch('touchEnd', []);
}

test('by keyboard alone', async ({ page }) => {
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
  for (const [i, { blocks }] of ROWS.entries()) {
    await steerTo(page, blocks[0]!);
    await page.keyboard.press('r');
    await steerTo(page, blocks.at(-1)!);
    await page.keyboard.press('r');
    await expect(page.getByLabel(/How many blocks/)).toBeFocused();
    await page.keyboard.type(String(blocks.length));
    await page.keyboard.press('Enter');
    await expect(rowFields(page)).toHaveCount(i + 1);
    await expect(sheetOf(page)).toBeFocused();
  }
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

/** Moves the crosshair with the arrow keys until it is well inside the block. */
async function steerTo(page: Page, { x, y }: { x: number; y: number }): Promise<void> {
  for (let presses = 0; presses < 200; presses++) {
    const at = await page.locator('.board-overlay .cross').last().getAttribute('d');
    const [, left, middle, , width] = /^M([\d.-]+) ([\d.-]+)h(([\d.-]+))/.exec(at!) ?? [];
    const [dx, dy] = [x - (Number(left) + Number(width) / 2), y - Number(middle)];
    // Four millimetres make an arm of the cross.
    const mm = Number(width) / 8;
    if (Math.abs(dx) < 2 * mm && Math.abs(dy) < 2 * mm) return;
    const sideways = Math.abs(dx) >= Math.abs(dy);
    const far = Math.max(Math.abs(dx), Math.abs(dy)) > 9 * mm;
    const key = sideways ? (dx > 0 ? 'ArrowRight' : 'ArrowLeft') : dy > 0 ? 'ArrowDown' : 'ArrowUp';
    await page.keyboard.press(far ? `Shift+${key}` : key);
  }
  throw new Error('the crosshair never came there');
}

async function expectPads(page: Page): Promise<void> {
  const rows = page.locator('.pad-table tbody tr');
  await expect(rows).toHaveCount(STRIP.pads.length);
  for (const [i, pad] of STRIP.pads.entries()) {
    await expect(rows.nth(i).getByRole('combobox')).toHaveValue(pad.parameter);
    const middle = Number(await rows.nth(i).getByRole('textbox').first().inputValue());
    expect(Math.abs(middle - pad.centreMm)).toBeLessThan(0.8);
  }
}

/** The later photo, read with the scale just taught, which is chosen already: every interval holds the truth. */
async function expectReading(page: Page): Promise<void> {
  await expect(page.locator('read-desk')).toHaveAttribute('data-scales', '3');
  await expect(page.locator('#scale')).toHaveValue('garden-strip');
  await page.setInputFiles('#photo', pathOf(READING));
  await expect(sheet(page)).toBeVisible();
  const { scaleId, readings } = await handedOn(page);
  expect(scaleId).toBe('garden-strip');
  expect(readings.map(({ parameter }) => parameter)).toEqual(STRIP.pads.map(({ parameter }) => parameter));
  for (const { parameter, low, high } of readings) {
    const true_ = READING.values![parameter]!;
    expect(low, parameter).toBeLessThanOrEqual(true_);
    expect(high, parameter).toBeGreaterThanOrEqual(true_);
  }
}

test('what is typed wrong is named beside its row, and the focus goes there', async ({ page }) => {
  await openTeaching(page);
  await page.setInputFiles('#chart-photo', pathOf(CHART));
  await page.getByRole('button', { name: 'Use these rows' }).click();
  await rowFields(page).nth(0).getByLabel('Measures').selectOption('free-chlorine');
  await page.getByLabel('Row 1, value of block 1', { exact: true }).fill('0 0.5 10 2 4 8');
  await page.getByRole('button', { name: 'Go on with these rows' }).click();
  await expect(rowFields(page).nth(0)).toContainText('10 does not fit in');
  await expect(rowFields(page).nth(1)).toContainText('Say what this row measures');
  await expect(page.locator('[aria-invalid=true]').first()).toBeFocused();
  await expect(page.locator('.rows-said')).toContainText('have to be put right');
});

test('a value can be filled by steps, and a block marked too many left out', async ({ page }) => {
  await openTeaching(page);
  await page.setInputFiles('#chart-photo', pathOf(CHART));
  await page.getByRole('button', { name: 'Use these rows' }).click();
  const row = rowFields(page).nth(1);
  await row.getByText('Fill by equal steps').click();
  await row.getByLabel('first value').fill('6.4');
  await row.getByLabel('step').fill('0.4');
  await row.getByRole('button', { name: 'Fill' }).click();
  await expect(page.getByLabel('Row 2, value of block 6', { exact: true })).toHaveValue('8.4');
});

test('a second light goes to the same scale: its rows and values are known again', async ({ page }) => {
  await teachQuickly(page, 'Garden strip');
  await page.getByRole('link', { name: 'Add the chart in another light' }).click();
  await expect(page.locator('.adding')).toContainText('Garden strip');
  await page.setInputFiles('#chart-photo', pathOf(SECOND_LIGHT));
  await page.getByRole('button', { name: 'Use these rows' }).click();
  for (const [i, row] of ROWS.entries()) {
    await expect(rowFields(page).nth(i).getByLabel('Measures')).toHaveValue(row.parameter);
    await expect(rowFields(page).nth(i).locator('.blocks li')).toHaveText(valuesOf(row));
  }
  await page.getByRole('button', { name: 'Go on with these rows' }).click();
  await page.getByLabel('The light it was taught in').fill('indoors, lamp');
  await page.getByRole('button', { name: 'Keep this scale' }).click();
  await page.getByRole('link', { name: 'See all scales' }).click();
  await expect(page.locator('article[data-id=garden-strip]')).toContainText(
    'Taught from 2 photos: open shade; indoors, lamp.',
  );
  await page.goto('/read/');
  await expectReading(page);
});

test('a photo without a card is refused with the reason and the remedy', async ({ page }) => {
  await openTeaching(page);
  await page.setInputFiles('#chart-photo', 'sample-images/refused/no-card.jpg');
  await expect(page.locator('.chart-step .photo-status')).toContainText('No card was found in the photo.');
  await expect(marking(page)).toBeHidden();
});

test('every step of teaching is accessible, in light and dark, and fits a phone', async ({ page }) => {
  test.slow();
  await page.setViewportSize({ width: 390, height: 844 });
  await teachQuickly(page, 'Garden strip');
  expect(await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)).toBeLessThanOrEqual(0);
  expect(await barriersOn(page)).toEqual([]);
});
