import { expect, type Page, test } from '@playwright/test';
import { learnPath } from '../../src/components/explainers.ts';
import { PAD_QUANTITIES } from '../../src/core/measurement/quantities.ts';
import { PAGES } from './built.ts';

test.describe('without script', () => {
  test.use({ javaScriptEnabled: false });

  test('an explainer is whole: text, figures, pictures and answers, but no dead controls', async ({ page }) => {
    await page.goto('/learn/free-chlorine/');
    await expect(page.getByRole('heading', { name: 'The chemistry' })).toBeVisible();
    await expect(page.locator('.instrument .picture svg')).toBeVisible();
    await expect(page.locator('.instrument .answer')).toContainText('mg/L');
    await expect(page.locator('.instrument input').first()).toBeHidden();
    await page.locator('details.check summary').first().click();
    await expect(page.locator('details.check .answer').first()).toBeVisible();
  });

  test('the strength of a deficiency can be chosen', async ({ page }) => {
    await page.goto('/learn/colour-vision/');
    await expect(page.locator('[data-strength="1"]').first()).toBeVisible();
    await page.getByLabel(/^mild/).check();
    await expect(page.locator('[data-strength="1"]').first()).toBeHidden();
    await expect(page.locator('[data-strength="0.4"]').first()).toBeVisible();
  });
});

test('an instrument works by keyboard', async ({ page }) => {
  await page.goto('/learn/free-chlorine/');
  const instrument = page.locator('.instrument');
  const before = await instrument.locator('.answer').textContent();
  await instrument.getByRole('slider', { name: /Stabilizer/ }).focus();
  await page.keyboard.press('End');
  await expect(instrument.locator('.answer')).not.toHaveText(before!);
  await expect(instrument.getByRole('slider', { name: /Stabilizer/ })).toHaveAttribute('aria-valuetext', '150 mg/L');
  await expect(instrument.locator('.picture svg')).toHaveAttribute(
    'aria-label',
    (await instrument.locator('.answer').textContent())!,
  );
});

test('an instrument works by touch', async ({ browser, baseURL }) => {
  const context = await browser.newContext({
    hasTouch: true,
    isMobile: true,
    viewport: { width: 390, height: 844 },
    ...(baseURL && { baseURL }),
  });
  const page = await context.newPage();
  await page.goto('/learn/saturation-index/');
  const picture = page.locator('.instrument .picture');
  await picture.scrollIntoViewIfNeeded();
  const before = await page.locator('.instrument .answer').textContent();
  const box = (await picture.boundingBox())!;
  await page.touchscreen.tap(box.x + box.width * 0.9, box.y + box.height * 0.3);
  await expect(page.locator('.instrument .answer')).not.toHaveText(before!);
  await expect(page.locator('.instrument .answer')).toContainText('full');
  await context.close();
});

test('an instrument takes over a reading of this tab, and says when there is none', async ({ page }) => {
  await page.goto('/learn/saturation-index/');
  const button = page.getByRole('button', { name: 'Put my reading on it' });
  await button.click();
  await expect(page.locator('.mine [role=status]')).toContainText('No reading');
  await page.evaluate(() => {
    const ends = { alternative: null, offScale: null, openBelow: false, openAbove: false };
    const scale = { id: 'practice-four', name: 'Practice scale', origin: 'practice' };
    const found = { quantity: 'ph', value: 8.1, low: 8, high: 8.2, ...ends, method: 'photo', scale };
    const handover = { format: 'dipwise-handover-2', measurements: [{ ...found, time: '2026-07-01T08:00:00.000Z' }] };
    sessionStorage.setItem('dipwise:handover', JSON.stringify(handover));
  });
  await button.click();
  await expect(page.locator('.mine [role=status]')).toContainText('pH');
  await expect(page.getByRole('slider', { name: /^pH/ })).toHaveValue('8.1');
});

test('every instrument on every page moves without complaint', { tag: '@release' }, async ({ page }) => {
  test.slow();
  const complaints: string[] = [];
  page.on('pageerror', (error) => complaints.push(error.message));
  let moved = 0;
  for (const path of PAGES.filter((page) => page.startsWith('/learn/'))) {
    await page.goto(path);
    moved += await moveAll(page);
  }
  expect(moved).toBeGreaterThanOrEqual(7);
  expect(complaints).toEqual([]);
});

async function moveAll(page: Page): Promise<number> {
  const instruments = await page.locator('.instrument').all();
  for (const instrument of instruments) {
    const slider = instrument.getByRole('slider').first();
    const before = await slider.getAttribute('aria-valuetext');
    await slider.focus();
    await page.keyboard.press('ArrowRight');
    if ((await slider.inputValue()) === (await slider.getAttribute('max'))) await page.keyboard.press('ArrowLeft');
    await expect(slider).not.toHaveAttribute('aria-valuetext', before!);
  }
  return instruments.length;
}

test('the search finds a section and leads there', async ({ page }) => {
  await page.goto('/learn/');
  await page.getByRole('searchbox').fill('aeration');
  const first = page.locator('learn-search li a').first();
  await expect(first).toHaveText('pH');
  await first.click();
  await expect(page).toHaveURL(/\/learn\/ph\/#/);
});

test('a parameter page prints as a handout of two pages', async ({ page }) => {
  for (const name of [
    'free-chlorine',
    'ph',
    'total-alkalinity',
    'total-hardness',
    'cyanuric-acid',
    'salt',
    'total-chlorine',
  ]) {
    await page.goto(`/learn/${name}/`);
    for (const format of ['A4', 'Letter'] as const) {
      const pdf = (await page.pdf({ format })).toString('latin1');
      expect(pdf.match(/\/Type\s*\/Page[^s]/g)?.length, `${name} on ${format}`).toBe(2);
    }
  }
});

test('every reading and every word about it leads to its place', async ({ page }) => {
  for (const parameter of PAD_QUANTITIES) {
    for (const word of [undefined, 'low', 'high', 'in-range', 'off-scale', 'unmatched'] as const) {
      const path = `/${learnPath(parameter, word)}`;
      const response = await page.goto(path);
      // Moving within a page answers nothing.
      expect(response?.status() ?? 200, path).toBe(200);
      const anchor = path.split('#')[1];
      if (anchor) await expect(page.locator(`#${anchor}`), path).toBeVisible();
    }
  }
});
