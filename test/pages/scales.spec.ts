import { expect, type Page, test } from '@playwright/test';
import { readFile } from 'node:fs/promises';
import { parseScale } from '../../src/core/scale/schema.ts';
import { barriersOn } from './accessible.ts';
import { ORDINARY, sheet } from './reading.ts';
import { teachQuickly } from './teaching.ts';

const own = (page: Page) => page.locator('.own-scales article');
const practice = (page: Page) => page.locator('[data-practice-id=practice-four]');
const said = (page: Page) => page.locator('.shelf-said');

async function openShelf(page: Page): Promise<void> {
  await page.goto('/scales/');
  await expect(page.locator('scale-shelf')).toHaveAttribute('data-ready', '');
}

async function openFile(page: Page, text: string): Promise<void> {
  await page.setInputFiles('#scale-file', {
    name: 'scale.json',
    mimeType: 'application/json',
    buffer: Buffer.from(text),
  });
}

test('a copy of a practice scale can be renamed, edited and deleted, and the deletion undone', async ({ page }) => {
  await openShelf(page);
  await practice(page).getByRole('button', { name: 'Duplicate' }).click();
  await expect(own(page)).toHaveCount(1);
  await own(page).getByRole('button', { name: 'Edit' }).click();
  const form = page.getByRole('form', { name: /^Edit/ });
  await form.getByLabel('Name of the strip').fill('My own');
  await form.getByLabel('block 2').first().fill('45');
  await form.getByRole('button', { name: 'Keep the changes' }).click();
  await expect(own(page).getByRole('heading', { name: 'My own' })).toBeFocused();
  await expect(own(page).locator('.ribbon').first()).toHaveAttribute('aria-label', /blocks at 0, 45, 70/);
  await page.reload();
  await expect(own(page)).toContainText('My own');
  await own(page).getByRole('button', { name: 'Delete' }).click();
  await expect(own(page)).toHaveCount(0);
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(own(page)).toContainText('My own');
  // The original is as it was.
  await expect(practice(page).locator('.ribbon').first()).toHaveAttribute('aria-label', /blocks at 0, 40, 70/);
  await expect(practice(page).getByRole('button', { name: /Edit|Delete/ })).toHaveCount(0);
});

test('wrong values are refused in a sentence, and nothing is changed', async ({ page }) => {
  await openShelf(page);
  await practice(page).getByRole('button', { name: 'Duplicate' }).click();
  await own(page).getByRole('button', { name: 'Edit' }).click();
  const form = page.getByRole('form', { name: /^Edit/ });
  await form.getByLabel('block 2').first().fill('70');
  await form.getByRole('button', { name: 'Keep the changes' }).click();
  await expect(form.locator('.issues')).toContainText('block values must rise along the chart');
  await form.getByRole('button', { name: 'Cancel' }).click();
  await expect(own(page).locator('.ribbon').first()).toHaveAttribute('aria-label', /blocks at 0, 40, 70/);
});

test('a photo that is chosen at once is read by one’s own scale, a practice photo by its own', async ({ page }) => {
  await openShelf(page);
  await practice(page).getByRole('button', { name: 'Duplicate' }).click();
  await expect(own(page)).toHaveCount(1);
  const name = (await own(page).getByRole('heading').first().innerText()).trim();
  await page.goto('/read/');
  await page.selectOption('#scale', { label: name });
  // What is kept is looked up when the page is idle: neither choice may be made before it is there.
  await page.goto('/read/');
  await page.setInputFiles('#photo', `sample-images/${ORDINARY.file}`);
  await expect(sheet(page)).toContainText(`${name}. Read at`);
  await page.goto('/read/');
  const button = page.locator('button.sample[data-scale=practice-five]').first();
  await button.click();
  await expect(sheet(page)).not.toContainText(`${name}. Read at`);
  await expect(sheet(page).locator('.pad')).toHaveCount(5);
});

test(
  'a taught scale is saved to a file and opened again on another device',
  { tag: '@release' },
  async ({ page, browser, baseURL }) => {
    await teachQuickly(page, 'Garden strip');
    await openShelf(page);
    const download = page.waitForEvent('download');
    await own(page).getByRole('button', { name: 'Save to a file' }).click();
    const file = await download;
    expect(file.suggestedFilename()).toBe('garden-strip.dipwise-scale.json');
    const text = await readFile(await file.path(), 'utf8');
    expect(parseScale(JSON.parse(text))).toMatchObject({ ok: true, scale: { name: 'Garden strip', origin: 'taught' } });
    const other = await (await browser.newContext(baseURL ? { baseURL } : {})).newPage();
    await openShelf(other);
    await openFile(other, text);
    await expect(own(other)).toContainText('Garden strip');
    await openFile(other, text);
    await expect(own(other)).toHaveCount(2);
    await other.context().close();
  },
);

test('hostile files are harmless, and refused in a sentence', async ({ page }) => {
  const complaints: string[] = [];
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('dialog', (dialog) => {
    complaints.push(dialog.message());
    void dialog.dismiss();
  });
  await openShelf(page);
  for (const text of ['', '<script>alert(1)</script>', '[]', '{"format":"dipwise-scale"}', '['.repeat(100_000)]) {
    await openFile(page, text);
    await expect(said(page)).toContainText('could not be opened as a scale');
    await expect(own(page)).toHaveCount(0);
  }
  const scale = JSON.parse(await readFile('src/content/scales/practice-four.json', 'utf8')) as object;
  await openFile(page, JSON.stringify({ ...scale, name: '<img src=x onerror=alert(1)>', origin: 'practice' }));
  await expect(own(page)).toHaveCount(1);
  await expect(own(page).getByRole('heading').first()).toHaveText('<img src=x onerror=alert(1)>');
  expect(await own(page).locator('img').count()).toBe(0);
  // It came in as the owner's: it can be deleted, and the practice scale of its id is untouched.
  await expect(own(page).getByRole('button', { name: 'Delete' })).toBeVisible();
  await expect(page.locator('article[data-practice-id]')).toHaveCount(2);
  expect(complaints).toEqual([]);
});

test('what a scale cannot tell apart is said plainly', async ({ page }) => {
  const scale = JSON.parse(await readFile('src/content/scales/practice-four.json', 'utf8')) as {
    pads: { parameter: string; blocks: { value: number; lab: number[] }[] }[];
  };
  const hardness = scale.pads.find(({ parameter }) => parameter === 'total-hardness')!;
  const [, , , at200] = hardness.blocks;
  for (const block of hardness.blocks.slice(4))
    block.lab = [at200!.lab[0]! - 0.5, at200!.lab[1]! + 0.5, at200!.lab[2]!];
  await openShelf(page);
  await openFile(page, JSON.stringify(scale));
  await own(page).getByText('What can be told apart').click();
  await expect(own(page)).toContainText('Total hardness: above 200 the colours hardly change.');
  await expect(own(page)).toContainText('By eye');
});

test(
  'a scale of one’s own is drawn and tabulated for every kind of eyes, as the practice scales are',
  { tag: '@release' },
  async ({ page }) => {
    const words = (cells: readonly string[]) => cells.map((cell) => cell.replace(/\s+/g, ' ').trim());
    await page.goto('/learn/colour-vision/');
    const published = new Map<string, string[]>();
    for (const strength of ['1', '0.4']) {
      const section = page.locator('.vision section', { has: page.locator('#eyes-practice-four') });
      const cells = await section.locator(`[data-strength="${strength}"] td`).allTextContents();
      expect(cells.length).toBeGreaterThan(50);
      published.set(strength, words(cells));
    }
    await openShelf(page);
    await practice(page).getByRole('button', { name: 'Duplicate' }).click();
    await own(page).getByText('As every kind of eyes sees it').click();
    await expect(own(page).locator('.eyes svg').first()).toBeVisible();
    expect(words(await own(page).locator('.eyes td').allTextContents())).toEqual(published.get('1'));
    await own(page).getByLabel(/mild/).check();
    expect(words(await own(page).locator('.eyes td').allTextContents())).toEqual(published.get('0.4'));
    await page.setViewportSize({ width: 390, height: 844 });
    expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
  },
);

test('a logbook that is opened here is sent to its page', async ({ page }) => {
  await openShelf(page);
  await openFile(page, await readFile('test/core/log/versions/v4.json', 'utf8'));
  await expect(said(page)).toContainText('is a logbook, not a scale');
  await said(page).getByRole('link', { name: 'logbook page' }).click();
  await expect(page).toHaveURL(/\/log\/$/);
});

test('the shelf is accessible with scales on it, in light and dark', async ({ page }) => {
  await openShelf(page);
  await practice(page).getByRole('button', { name: 'Duplicate' }).click();
  await own(page).getByText('What can be told apart').click();
  await own(page).getByText('As every kind of eyes sees it').click();
  await expect(own(page).locator('.eyes svg').first()).toBeVisible();
  await practice(page).getByRole('button', { name: 'Duplicate' }).click();
  await own(page).nth(1).getByRole('button', { name: 'Edit' }).click();
  expect(await barriersOn(page)).toEqual([]);
});
