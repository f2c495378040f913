import { expect, type Page, test } from '@playwright/test';

/** The invented household after a wet spring: five steps. */
const READINGS = {
  'free-chlorine': 1,
  'total-chlorine': 1.2,
  ph: 8.1,
  'total-alkalinity': 40,
  'calcium-hardness': 90,
  'cyanuric-acid': 30,
  salt: 2100,
  temperature: 26,
};

async function fillIn(page: Page): Promise<void> {
  await page.goto('/plan/');
  await expect(page.locator('plan-desk')).toHaveAttribute('data-ready', '');
  await page.selectOption('#typed-method', 'drops');
  await page.fill('#volume', '24000');
  await page.fill('#cell', '12');
  for (const [id, value] of Object.entries(READINGS)) await page.fill(`#reading-${id}`, String(value));
}

test.describe('on a phone', () => {
  test.use({ viewport: { width: 390, height: 844 } });

  test('the form folds into lines, the first dose stands within two screens, five steps within four', async ({
    page,
  }) => {
    await fillIn(page);
    await page.getByRole('button', { name: 'Show the plan' }).last().click();
    await expect(page.locator('[data-part=pool] .part-line')).toHaveText('24,000 L, vinyl, chlorinator 12 g/h');
    await expect(page.locator('[data-part=measured] .part-line')).toContainText('pH 8.1');
    await expect(page.locator('#volume')).toBeHidden();
    const steps = page.locator('.step');
    await expect(steps).toHaveCount(5);
    const screens = async (edge: 'top' | 'bottom', selector: string, last = false) => {
      const at = page.locator(selector);
      return (last ? at.last() : at.first()).evaluate(
        (one, side) => (one.getBoundingClientRect()[side] + scrollY) / innerHeight,
        edge,
      );
    };
    expect(await screens('bottom', '.step .amount')).toBeLessThanOrEqual(2);
    expect(await screens('bottom', '.step', true)).toBeLessThanOrEqual(4);
    const box = (await page.getByRole('button', { name: 'After rain' }).boundingBox())!;
    expect(box.height).toBeGreaterThanOrEqual(44);
  });
});

test.describe('on a laptop', () => {
  test.use({ viewport: { width: 1280, height: 900 } });

  test('the answer stays in view while the end of the form is edited', async ({ page }) => {
    await fillIn(page);
    await page.getByText('Your own targets').click();
    await page.locator('#target-ph-high').focus();
    await expect(page.locator('#target-ph-high')).toBeInViewport();
    await expect(page.locator('.verdict')).toBeInViewport();
  });
});

test('one press shows what an occasion asks for, with this pool’s figures', async ({ page }) => {
  await fillIn(page);
  await page.getByRole('button', { name: 'After a party' }).click();
  const routine = page.locator('.routine');
  // 10 bathers, 4 g each, in 24,000 L: 1.7 mg/L.
  await expect(routine).toContainText('about 1.7 mg/L');
  await page.getByLabel('Bathers').fill('20');
  await expect(routine).toContainText('about 3.3 mg/L');
  await expect(routine.locator('.cautions li').first()).toContainText('Label first');
  await page.getByRole('button', { name: 'After a party' }).click();
  await expect(routine).toBeEmpty();
});

test('keeps what was typed as a reading, once', async ({ page }) => {
  await fillIn(page);
  await page.getByRole('button', { name: 'Keep these values' }).click();
  await expect(page.locator('.actions')).toContainText('Kept in the logbook');
  await expect(page.getByRole('button', { name: 'Keep these values' })).toBeHidden();
  await page.goto('/log/');
  await expect(page.locator('main')).toContainText('8.1');
});

test('remembers what the per cent of a bottle count, its age and its price', async ({ page }) => {
  await fillIn(page);
  await page.getByText('The products on your shelf').click();
  await page.getByLabel('liquid chlorine (sodium hypochlorite)', { exact: true }).check();
  await page.locator('[data-basis-of="sodium-hypochlorite"]').selectOption('by-weight');
  await page.locator('[data-age-of="sodium-hypochlorite"]').fill('3');
  await page.locator('[data-price-of="sodium-hypochlorite"]').fill('1.50');
  const cost = page.getByText(/At your prices the steps cost/);
  const inMetric = await cost.innerText();
  // 3.785 412 litres to the US gallon: 231 cubic inches of 25.4 mm each.
  const price = page.locator('[data-price-of="sodium-hypochlorite"]');
  await page.getByLabel('US gallons').check();
  await expect(price).toHaveValue('5.68');
  await expect(cost).toHaveText(inMetric);
  await page.reload();
  await expect(page.locator('[data-basis-of="sodium-hypochlorite"]')).toHaveValue('by-weight');
  await expect(page.locator('[data-age-of="sodium-hypochlorite"]')).toHaveValue('3');
  await expect(price).toHaveValue('5.68');
  await page.getByText('Shelf, units and more').click();
  await page.getByLabel('litres and grams').check();
  await expect(price).toHaveValue('1.50');
});

test('two measures are enough for a volume: the gap to the rim starts at 0', async ({ page }) => {
  await page.goto('/plan/');
  await page.getByText('Work the volume out').click();
  await page.fill('#shape-diameterM', '5.5');
  await page.fill('#shape-depthM', '1.2');
  // pi/4 x 5.5 m x 5.5 m x 1.2 m = 28.51 m3.
  await expect(page.locator('.shape-result')).toContainText('28,500 L');
});
