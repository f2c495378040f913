import { expect, type Page, test } from '@playwright/test';
import { planFrom } from '../../src/core/water/plan/make-plan.ts';
import { doText } from '../../src/words/plan/parts.ts';
import { barriersOn } from './accessible.ts';
import { expectSoundLayout } from './layout/layout.ts';
import { openDesk, ORDINARY, readFrom, sheet as readingSheet } from './reading.ts';

// The invented household: a 5.5 m round pool with a liner and a salt chlorinator; hand-measured, with drops, a little off.
const READINGS = {
  'free-chlorine': 1,
  'total-chlorine': 1.2,
  ph: 8.1,
  'total-alkalinity': 130,
  'calcium-hardness': 90,
  'cyanuric-acid': 45,
  salt: 2100,
  temperature: 26,
};
const VOLUME_LITRES = 24_000;

const INPUT = {
  pool: {
    volumeLitres: VOLUME_LITRES,
    surface: 'vinyl',
    heater: 'none',
    chlorination: 'chlorinator',
    stabilised: true,
    exposure: 'sun',
  },
  readings: Object.fromEntries(Object.entries(READINGS).map(([id, value]) => [id, { value, method: 'drops' }])),
  shelf: [{ product: 'hydrochloric-acid' }, { product: 'sodium-bicarbonate' }, { product: 'calcium-chloride' }],
};

const sheet = (page: Page) => page.locator('.plan-sheet');

async function open(page: Page): Promise<void> {
  await page.goto('/plan/');
  await expect(page.locator('plan-desk')).toHaveAttribute('data-ready', '');
}

async function fillIn(page: Page): Promise<void> {
  await page.selectOption('#typed-method', 'drops');
  await page.fill('#volume', String(VOLUME_LITRES));
  for (const [id, value] of Object.entries(READINGS)) await page.fill(`#reading-${id}`, String(value));
}

test('shows the steps that the core plans, in order, in metric and in US units', async ({ page }) => {
  const outcome = planFrom(INPUT);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  const { steps } = outcome.plan;
  expect(steps.length).toBeGreaterThan(2);
  await open(page);
  await fillIn(page);
  const shown = sheet(page).locator('.step .do');
  await expect(shown).toHaveText(steps.map((step) => doText(step, 'metric')).filter(Boolean));
  await page.getByLabel('US gallons').check();
  await expect(shown).toHaveText(steps.map((step) => doText(step, 'us')).filter(Boolean));
  await expect(page.locator('#reading-temperature')).toHaveValue('78.8');
  await page.getByLabel('litres and grams').check();
  await expect(page.locator('#volume')).toHaveValue(String(VOLUME_LITRES));
  await expect(shown).toHaveText(steps.map((step) => doText(step, 'metric')).filter(Boolean));
});

test('explains an amount on demand, and keeps its cautions beside it', async ({ page }) => {
  await open(page);
  await fillIn(page);
  const acid = sheet(page).locator('.step').filter({ hasText: 'hydrochloric' });
  await expect(acid.locator('.mind')).toContainText(
    /^Label first.*Acid and chlorine products together give off chlorine gas/,
  );
  await acid.getByText('Why this much').click();
  await expect(acid.getByText('The equilibrium of the water asks for')).toBeVisible();
  await expect(sheet(page)).toContainText('Wear goggles and gloves');
});

test('answers while one types, and asks for the volume before it doses', async ({ page }) => {
  await open(page);
  await expect(sheet(page)).toContainText('Enter what you measured');
  await page.fill('#reading-ph', '7.9');
  await expect(sheet(page)).toContainText('Give the volume of your pool');
  await expect(sheet(page).locator('.step')).toHaveCount(0);
  await page.fill('#volume', '24,000');
  await expect(sheet(page)).not.toContainText('Give the volume');
});

const SLIPS: readonly [field: string, text: string, says: RegExp][] = [
  ['#reading-ph', '15', /pH can’t be 15/],
  ['#reading-ph', 'seven', /pH must be a number/],
  ['#reading-temperature', '78', /was it in Fahrenheit/],
  ['#reading-free-chlorine', '-1', /free chlorine can’t be −1/i],
  ['#volume', '0', /volume/i],
  ['#volume', '99999999999', /volume/i],
];

for (const [field, text, says] of SLIPS) {
  test(`says what can't be right with ${text} in ${field}`, async ({ page }) => {
    await open(page);
    await fillIn(page);
    await page.fill(field, text);
    await expect(page.locator(field)).toHaveAttribute('aria-invalid', 'true');
    await expect(page.locator('.field-issue').first()).toHaveText(says);
    await expect(sheet(page).locator('.step')).toHaveCount(0);
    await page.fill(field, '');
    await expect(page.locator(field)).not.toHaveAttribute('aria-invalid', 'true');
  });
}

test('asks how what was typed was measured, once or value by value', async ({ page }) => {
  await open(page);
  await page.fill('#reading-total-alkalinity', '90');
  const row = sheet(page).locator('.ranges tr', { hasText: 'Total alkalinity' });
  await expect(row).toContainText('75 to 105');
  await page.selectOption('#typed-method', 'drops');
  await expect(row).toContainText('80 to 100');
  const own = page.getByLabel('Total alkalinity: measured with');
  await expect(own).toBeHidden();
  await page.selectOption('#typed-method', 'each');
  await own.selectOption('eye');
  await expect(row).toContainText('63 to 117');
});

test('refuses readings that contradict each other, beside the field', async ({ page }) => {
  await open(page);
  await fillIn(page);
  await page.fill('#reading-total-chlorine', '0.2');
  await expect(page.locator('.field-issue')).toContainText('can’t be less than free chlorine');
});

test('keeps the pool, the shelf and the units, but not the readings', async ({ page }) => {
  await open(page);
  await page.getByLabel('US gallons').check();
  await page.fill('#volume', '6300');
  await page.selectOption('#surface', 'plaster');
  await page.getByText('Climate of the place').click();
  await page.getByLabel('January: mean air temperature').fill('28.4');
  await page.getByLabel('July: rain').fill('2.5');
  await page.getByText('The products on your shelf').click();
  await page.getByRole('checkbox', { name: 'soda ash' }).check();
  await page.fill('#reading-ph', '7.7');
  await page.reload();
  await expect(page.locator('#volume')).toHaveValue('6300');
  await expect(page.locator('#surface')).toHaveValue('plaster');
  await expect(page.getByLabel('January: mean air temperature')).toHaveValue('28.4');
  await expect(page.getByLabel('July: rain')).toHaveValue('2.5');
  await expect(page.getByLabel('July: mean air temperature')).toHaveValue('');
  await expect(page.locator('[data-product="soda-ash"]')).toBeChecked();
  await expect(page.getByLabel('US gallons')).toBeChecked();
  await expect(page.locator('#reading-ph')).toHaveValue('');
});

test('takes an own target, and moves the aim with it', async ({ page }) => {
  await open(page);
  await fillIn(page);
  await page.getByText('Your own targets').click();
  await page.fill('#target-ph-high', '7.3');
  const row = sheet(page).locator('.ranges tr').filter({ hasText: 'pH' });
  await expect(row).toContainText('7.2 to 7.3');
  await expect(sheet(page).locator('.notes')).toContainText('set by you');
});

test('works the volume out from the shape', async ({ page }) => {
  await open(page);
  await page.getByText('Work the volume out').click();
  await page.fill('#shape-diameterM', '5.5');
  await page.fill('#shape-depthM', '1.2');
  await page.fill('#shape-belowRimM', '0.15');
  await page.getByRole('button', { name: 'Use this volume' }).click();
  // A cylinder: pi/4 x 5.5 m x 5.5 m x 1.05 m = 24.946 m3.
  await expect(page.locator('#volume')).toHaveValue('24950');
});

test('works the volume out over a floor with a shelf', { tag: '@release' }, async ({ page }) => {
  await open(page);
  await page.getByText('Work the volume out').click();
  await page.selectOption('#shape', 'rectangle');
  await page.selectOption('#floor', 'stepped');
  const measures = { lengthM: 8, widthM: 4, shallowM: 1, deepM: 2, shelfPercent: 50, slopePercent: 0, belowRimM: 0.1 };
  for (const [id, value] of Object.entries(measures)) await page.fill(`#shape-${id}`, String(value));
  await page.getByRole('button', { name: 'Use this volume' }).click();
  // 8 m x 4 m x (half at 0.9 m, half at 1.9 m) = 44.8 m3.
  await expect(page.locator('#volume')).toHaveValue('44800');
});

test('is accessible when full, and holds in every width and face', async ({ page }) => {
  test.slow();
  await open(page);
  await fillIn(page);
  await page.fill('#reading-salt', '');
  await page.getByRole('button', { name: 'Clean the filter' }).click();
  for (const part of await page.locator('details').all()) await part.evaluate((one) => one.setAttribute('open', ''));
  expect(await barriersOn(page)).toEqual([]);
  await expectSoundLayout(page);
});

const MARGIN = { top: '12mm', bottom: '12mm', left: '14mm', right: '14mm' };

async function printedPages(page: Page, format: string): Promise<number> {
  const pdf = (await page.pdf({ format, margin: MARGIN })).toString('latin1');
  return pdf.match(/\/Type\s*\/Page\b/g)!.length;
}

test('prints at 9 pt or more, on two pages at the most', async ({ page }) => {
  await open(page);
  await fillIn(page);
  for (const format of ['A4', 'Letter']) expect(await printedPages(page, format), format).toBeLessThanOrEqual(2);
  await page.emulateMedia({ media: 'print' });
  const small = await sheet(page).evaluate((root) =>
    [...root.querySelectorAll<HTMLElement>('*')]
      .filter((element) =>
        [...element.childNodes].some((node) => node.nodeType === 3 && node.textContent!.trim() !== ''),
      )
      .filter((element) => element.checkVisibility() && element.getBoundingClientRect().height > 1)
      // 9 pt are 12 px.
      .filter((element) => parseFloat(getComputedStyle(element).fontSize) < 12)
      .map((element) => `${element.tagName} ${element.className}: ${element.textContent!.slice(0, 40)}`),
  );
  expect(small).toEqual([]);
});

test('prints a plan without steps on one page', async ({ page }) => {
  await open(page);
  await page.fill('#volume', String(VOLUME_LITRES));
  const fine = {
    'free-chlorine': 4,
    ph: 7.5,
    'total-alkalinity': 80,
    'cyanuric-acid': 50,
    salt: 3200,
    temperature: 26,
  };
  for (const [id, value] of Object.entries(fine)) await page.fill(`#reading-${id}`, String(value));
  for (const format of ['A4', 'Letter']) expect(await printedPages(page, format), format).toBe(1);
});

test('the reading sheet shows the spans that the plan worked out for this pool', async ({ page }) => {
  await open(page);
  await fillIn(page);
  await page.getByText('Your own targets').click();
  await page.fill('#target-ph-high', '7.3');
  await expect(sheet(page)).toContainText('7.2 to 7.3');
  await openDesk(page);
  await readFrom(page, ORDINARY);
  await expect(readingSheet(page)).toContainText('that the plan last worked out for your pool');
  await expect(readingSheet(page).locator('.pad[data-parameter=ph]')).toContainText('Should be 7.2 to 7.3');
});
