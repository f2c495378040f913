import { expect, test } from '@playwright/test';
import { barriersOn } from './accessible.ts';
import { expectSoundLayout } from './layout/layout.ts';
import { saved } from './logbook.ts';
import { expectPads, expectReading, THREE_MINUTES } from './taught.ts';
import {
  CHART,
  fillTimes,
  keepAs,
  marking,
  onScreen,
  openTeaching,
  pathOf,
  rowFields,
  ROWS,
  SECOND_LIGHT,
  teachQuickly,
  valuesOf,
} from './teaching.ts';

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

test('a value can be filled by steps, and a block marked too many left out', { tag: '@release' }, async ({ page }) => {
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

test(
  'a second light goes to the same scale: its rows and values are known again',
  { tag: '@release' },
  async ({ page }) => {
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
  },
);

test('a photo without a card is refused with the reason and the remedy', async ({ page }) => {
  await openTeaching(page);
  await page.setInputFiles('#chart-photo', 'sample-images/refused/no-card.jpg');
  await expect(page.locator('.chart-step .photo-status')).toContainText('No card was found in the photo.');
  await expect(marking(page)).toBeHidden();
});

test('every step of teaching, its photos and rows in place, is accessible and holds in every width and face', async ({
  page,
}) => {
  test.slow();
  await page.setViewportSize({ width: 390, height: 844 });
  await teachQuickly(page, 'Garden strip');
  await expectSoundLayout(page);
  expect(await barriersOn(page)).toEqual([]);
});

test('where the browser keeps nothing, a taught scale is not said to be kept, and can be saved', async ({ page }) => {
  await page.addInitScript(() => {
    const denied = () => {
      throw new DOMException('denied', 'SecurityError');
    };
    Object.defineProperty(globalThis, 'indexedDB', { value: { open: denied, deleteDatabase: denied } });
  });
  await teachQuickly(page, 'Garden strip', 'The scale is made, but not kept');
  await expect(page.locator('.done-step .on-device')).toBeHidden();
  const scale = JSON.parse(await saved(page, 'Save the scale to a file')) as { name: string };
  expect(scale.name).toBe('Garden strip');
});
