import { expect, test } from '@playwright/test';
import { execFileSync } from 'node:child_process';
import sharp from 'sharp';
import { refusalMessage } from '../../src/words/reading.ts';
import { barriersOn } from './accessible.ts';
import { handedOn, openDesk, ORDINARY, readFrom, REFUSED, refusalOn, sheet } from './reading.ts';

test('a practice photo becomes values, and the values arrive in the plan', async ({ page }) => {
  await openDesk(page);
  await page.locator('button.sample').first().click();
  await expect(sheet(page)).toBeVisible();
  await expect(page.getByRole('heading', { name: 'What the strip says' })).toBeFocused();
  const rows = sheet(page).locator('.pad');
  await expect(rows).toHaveCount(Object.keys(ORDINARY.values).length);
  await expect(rows.locator('.truth')).toHaveCount(await rows.count());
  const handed = await handedOn(page);
  for (const { quantity, value } of handed) {
    const shown = Number(await page.locator(`#reading-${quantity}`).inputValue());
    expect(Math.abs(shown - value)).toBeLessThanOrEqual(quantity === 'ph' ? 0.051 : Math.max(0.051, value * 0.03));
  }
});

test('the page reads the same values as the command', async ({ page }) => {
  const command = JSON.parse(
    execFileSync(process.execPath, ['src/cli/read.ts', '--scale', ORDINARY.scale, `sample-images/${ORDINARY.file}`], {
      encoding: 'utf8',
    }),
  ) as { pads: { parameter: string; value: number; low: number; high: number }[] };
  await openDesk(page);
  await readFrom(page, ORDINARY);
  await expect(sheet(page)).toBeVisible();
  const handed = await handedOn(page);
  expect(handed.map(({ quantity }) => quantity)).toEqual(command.pads.map(({ parameter }) => parameter));
  // Two JPEG decoders differ by a rounding here and there; a twentieth of the interval is far below what it claims.
  command.pads.forEach(({ value, low, high }, i) => {
    expect(Math.abs(handed[i]!.value - value)).toBeLessThanOrEqual((high - low) / 20);
  });
});

test('a value can be corrected by hand, is marked, and can be taken back', async ({ page }) => {
  await openDesk(page);
  await readFrom(page, ORDINARY);
  const row = sheet(page).locator('.pad[data-parameter=ph]');
  const before = await row.locator('.pad-value strong').textContent();
  await row.locator('summary').click();
  await row.getByRole('textbox').fill('7.15');
  await row.getByRole('button', { name: 'Use this' }).click();
  await expect(row.locator('.pad-value strong')).toHaveText('7.15');
  await expect(row).toContainText('Entered by hand');
  await row.locator('summary').click();
  await row.getByRole('button', { name: 'Back to the photo’s value' }).click();
  await expect(row.locator('.pad-value strong')).toHaveText(before!);
  await row.locator('summary').click();
  await row.getByRole('textbox').fill('7.15');
  await page.keyboard.press('Enter');
  const handed = await handedOn(page);
  expect(handed.find(({ quantity }) => quantity === 'ph')).toMatchObject({ value: 7.15, method: 'unsaid' });
});

test('a photo can be dropped and pasted', async ({ page }) => {
  await openDesk(page);
  for (const type of ['drop', 'paste']) {
    await page.evaluate((kind) => {
      const transfer = new DataTransfer();
      transfer.items.add(new File(['no picture'], 'photo.jpg', { type: 'image/jpeg' }));
      const event =
        kind === 'drop'
          ? new DragEvent('drop', { dataTransfer: transfer, bubbles: true, cancelable: true })
          : new ClipboardEvent('paste', { clipboardData: transfer, bubbles: true, cancelable: true });
      document.querySelector('.result')!.replaceChildren();
      document.body.dispatchEvent(event);
    }, type);
    await expect(refusalOn(page), type).toContainText('could not be opened as a picture');
  }
});

test('another photo of the strip joins the reading, until that is kept', async ({ page }) => {
  await openDesk(page);
  await readFrom(page, ORDINARY);
  await expect(sheet(page)).toBeVisible();
  const row = sheet(page).locator('.pad[data-parameter=ph]');
  await row.locator('summary').click();
  await row.getByRole('textbox').fill('7.15');
  await row.getByRole('button', { name: 'Use this' }).click();
  const other = sheet(page).locator('.pad[data-parameter=total-alkalinity] .span');
  const alone = await other.textContent();
  const file = `sample-images/${ORDINARY.file}`;
  await page.setInputFiles('#another-photo', [file, file]);
  await expect(sheet(page)).toContainText('from 3 photos together');
  // What was entered stays, and what wasn't gets surer.
  await expect(row.locator('.pad-value strong')).toHaveText('7.15');
  expect(await other.textContent()).not.toBe(alone);
  // A photo that can't be read leaves what was read.
  await page.setInputFiles('#another-photo', `sample-images/${REFUSED[0]!.file}`);
  await expect(refusalOn(page)).toBeVisible();
  await expect(sheet(page)).toContainText('from 3 photos together');
  await page.reload();
  await expect(sheet(page)).toContainText('from 3 photos together');
  await page.getByRole('button', { name: 'Keep in the logbook' }).click();
  await expect(page.locator('#another-photo')).toBeHidden();
});

test('a practice photo is read with its own scale for this once, and marked as invented', async ({ page }) => {
  await openDesk(page);
  const other = 'practice-five';
  expect(ORDINARY.scale).not.toBe(other);
  await page.selectOption('#scale', other);
  await page.locator('button.sample').first().click();
  await expect(sheet(page)).toContainText('simulated with');
  await expect(sheet(page).locator('.invented')).toContainText('practice scale, which is invented');
  await expect(page.locator('#scale')).toHaveValue(other);
});

test('a practice photo that comes late gives way to the photo chosen meanwhile', async ({ page }) => {
  let release: () => void = () => undefined;
  const held = new Promise<void>((resolve) => (release = resolve));
  await openDesk(page);
  const late = (await page.locator('button.sample').nth(1).getAttribute('data-photo'))!;
  await page.route(`**${late}`, async (route) => {
    await held;
    await route.continue().catch(() => undefined);
  });
  await page.locator('button.sample').nth(1).click();
  await readFrom(page, ORDINARY);
  await expect(sheet(page)).toBeVisible();
  release();
  await expect(sheet(page)).not.toContainText('simulated with');
});

test('the sheet begins with its result, and all pads stand on a phone’s screen', async ({ page }) => {
  await page.setViewportSize({ width: 390, height: 844 });
  await openDesk(page);
  await page.locator('button.sample').first().click();
  await expect(sheet(page).locator('.sheet-summary')).toHaveText(/in range|low|high/);
  await expect(sheet(page)).toBeInViewport();
  const bottom = await sheet(page)
    .locator('.pad')
    .last()
    .evaluate((pad) => pad.getBoundingClientRect().bottom);
  expect(bottom).toBeLessThanOrEqual(844);
});

test('the scale is remembered', async ({ page }) => {
  await openDesk(page);
  const options = await page
    .locator('#scale option')
    .evaluateAll((all) => all.map((o) => (o as HTMLOptionElement).value));
  const last = options.at(-1)!;
  await page.selectOption('#scale', last);
  await page.reload();
  await expect(page.locator('#scale')).toHaveValue(last);
});

test('while the page rests, the reader gets ready, fetched once; the reading is the same', async ({ page }) => {
  const fetched: string[] = [];
  page.on('request', (request) => {
    if (request.url().includes('/worker-')) fetched.push(request.url());
  });
  await openDesk(page);
  await expect.poll(() => fetched).toHaveLength(1);
  await page.locator('#photo').dispatchEvent('click');
  await readFrom(page, ORDINARY);
  await expect(sheet(page)).toBeVisible();
  expect(fetched).toHaveLength(1);
  const handed = await handedOn(page);
  for (const { quantity, low, high } of handed) {
    expect(low, quantity).toBeLessThanOrEqual(ORDINARY.values[quantity]!);
    expect(high, quantity).toBeGreaterThanOrEqual(ORDINARY.values[quantity]!);
  }
});

test('a reader that couldn’t be fetched while the page rested is fetched again', async ({ page }) => {
  // When the page hears of it shows nowhere.
  await page.addInitScript(() => {
    window.Worker = class extends Worker {
      constructor(url: string | URL, options?: WorkerOptions) {
        super(url, options);
        this.addEventListener('error', () => (document.documentElement.dataset['failed'] = ''));
      }
    };
  });
  await page.route('**/worker-*.js', (route) => route.abort(), { times: 1 });
  await openDesk(page);
  await expect(page.locator('html')).toHaveAttribute('data-failed', '');
  await readFrom(page, ORDINARY);
  await expect(sheet(page)).toBeVisible();
});

test('the whole job can be done by keyboard', async ({ page }) => {
  await openDesk(page);
  const tabTo = async (name: RegExp) => {
    for (let i = 0; i < 60; i++) {
      await page.keyboard.press('Tab');
      const label = await page.evaluate(() => document.activeElement?.textContent ?? '');
      if (name.test(label)) return;
    }
    throw new Error(`no way to ${String(name)} by Tab`);
  };
  await page.keyboard.press('Tab');
  await expect(page.getByRole('link', { name: 'Skip to the page' })).toBeFocused();
  await page.keyboard.press('Enter');
  await tabTo(/Open shade on the terrace/);
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { name: 'What the strip says' })).toBeFocused();
  await tabTo(/Take these values to the plan/);
  await page.keyboard.press('Enter');
  await page.waitForURL('**/plan/');
  await expect(page.locator('#reading-ph')).not.toHaveValue('');
});

test(
  'two cards in a photo: the visitor is asked which, by keyboard too, and the chosen one is read',
  { tag: '@release' },
  async ({ page }) => {
    const { data: right, info } = await sharp(`sample-images/${ORDINARY.file}`)
      .resize({ height: 1500 })
      .toBuffer({ resolveWithObject: true });
    const left = await sharp('sample-images/refused/no-strip.jpg').resize({ height: 1500 }).toBuffer();
    const buffer = await sharp({ create: { width: 2 * info.width, height: 1500, channels: 3, background: '#777' } })
      .composite([
        { input: left, left: 0, top: 0 },
        { input: right, left: info.width, top: 0 },
      ])
      .jpeg({ quality: 95 })
      .toBuffer();
    await openDesk(page);
    await page.selectOption('#scale', ORDINARY.scale);
    await page.setInputFiles('#photo', { name: 'two.jpg', mimeType: 'image/jpeg', buffer });
    const question = page.getByRole('heading', { name: 'Which card should be read?' });
    await expect(question).toBeFocused();
    await expect(page.locator('.which-card .outline')).toHaveCount(2);
    expect(await barriersOn(page)).toEqual([]);
    await page.keyboard.press('Tab');
    await expect(page.getByRole('button', { name: 'Left card' })).toBeFocused();
    await page.keyboard.press('Enter');
    await expect(refusalOn(page)).toContainText(refusalMessage('no-strip').wrong);
    await page.setInputFiles('#photo', { name: 'two.jpg', mimeType: 'image/jpeg', buffer });
    await page.getByRole('button', { name: 'Right card' }).click();
    await expect(sheet(page).locator('.pad')).toHaveCount(Object.keys(ORDINARY.values).length);
  },
);
