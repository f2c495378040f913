/**
 * Readings, refusals, cancels and navigations in one page: memory stays, and no frame is left to the garbage collector.
 * `MEMORY_READINGS=200 npm run pages -- memory` is the whole of it.
 */
import { type CDPSession, expect, type Page, test } from '@playwright/test';
import { readFileSync } from 'node:fs';
import { letPass } from './moments.ts';
import { openDesk, ORDINARY, readFrom, REFUSED, refusalOn, sheet } from './reading.ts';

const READINGS = Number(process.env['MEMORY_READINGS'] ?? 16);
const FIRST = Math.min(10, READINGS >> 1);

/**
 * Resident memory of the browser's page processes once the garbage is collected, MB; null where the system doesn't tell.
 * Left alone the collector lets up to half as much again pile up between its rounds; what matters is what stays.
 */
async function resident(session: CDPSession, page: Page): Promise<number | null> {
  const own = await page.context().newCDPSession(page);
  await own.send('HeapProfiler.collectGarbage');
  await own.detach();
  const { processInfo } = await session.send('SystemInfo.getProcessInfo');
  try {
    return processInfo
      .filter(({ type }) => type === 'renderer')
      .map(({ id }) => Number(/VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${id}/status`, 'utf8'))?.[1]) / 1024)
      .reduce((sum, mb) => sum + mb, 0);
  } catch {
    return null;
  }
}

async function round(page: Page, number: number): Promise<void> {
  if (number % 4 === 3) await openDesk(page);
  await readFrom(page, ORDINARY);
  if (number % 3 === 1) {
    // Left at any moment: while it is decoded, taken over, looked through.
    await letPass(page, (number * 37) % 400);
    const cancel = page.getByRole('button', { name: 'Cancel' });
    if (await cancel.isVisible()) await cancel.click();
  }
  if (number % 5 === 2) {
    await readFrom(page, { ...REFUSED[0]!, file: `refused/${REFUSED[0]!.file.replace(/^refused\//, '')}` });
    await expect(refusalOn(page)).toBeVisible();
  }
  await readFrom(page, ORDINARY);
  await expect(sheet(page)).toBeVisible();
  await page.locator('#scale').focus();
}

test('a photo is never drawn from a frame: Chromium keeps as much shared memory, each time', async ({ page }) => {
  await page.addInitScript(() => {
    const draw = CanvasRenderingContext2D.prototype.drawImage;
    CanvasRenderingContext2D.prototype.drawImage = function (this: CanvasRenderingContext2D, ...given: unknown[]) {
      if (given[0] instanceof VideoFrame) document.documentElement.dataset['drewFrame'] = '';
      return (draw as (...all: unknown[]) => void).apply(this, given);
    } as typeof draw;
    // The waiting list draws the photo too, where the wait is long: it always is.
    const set = window.setTimeout.bind(window);
    window.setTimeout = ((act: () => void, millis = 0) => set(act, millis === 600 ? 0 : millis)) as typeof setTimeout;
  });
  await openDesk(page);
  await readFrom(page, { ...REFUSED[0]!, file: `refused/${REFUSED[0]!.file.replace(/^refused\//, '')}` });
  await expect(refusalOn(page).locator('canvas')).toBeVisible();
  // An image element would keep the pixels too.
  await expect(refusalOn(page).locator('img')).toHaveCount(0);
  expect(await page.locator('html').getAttribute('data-drew-frame')).toBeNull();
});

test('the picture of a reading that another takes the place of gives its pixels back at once', async ({ page }) => {
  await openDesk(page);
  await readFrom(page, ORDINARY);
  await expect(sheet(page)).toBeVisible();
  const canvas = await page.evaluateHandle(() => document.querySelector<HTMLCanvasElement>('.card-picture canvas')!);
  expect(await canvas.evaluate(({ width }) => width)).toBeGreaterThan(500);
  await readFrom(page, ORDINARY);
  await expect.poll(() => canvas.evaluate(({ isConnected }) => isConnected)).toBe(false);
  expect(await canvas.evaluate(({ width }) => width)).toBe(0);
});

test(
  `${READINGS} readings, with refusals, cancels and navigations, in the memory of the first ${FIRST}`,
  { tag: '@release' },
  async ({ browser, page }) => {
    test.setTimeout(60_000 + READINGS * 30_000);
    const complaints: string[] = [];
    page.on('console', (message) => {
      if (/garbage collected/.test(message.text())) complaints.push(message.text());
    });
    const session = await browser.newBrowserCDPSession();
    await openDesk(page);
    const seen: number[] = [];
    for (let number = 0; number < READINGS; number++) {
      await round(page, number);
      const now = await resident(session, page);
      if (now !== null) seen.push(now);
    }
    console.log(`resident MB: ${seen.map(Math.round).join(' ')}`);
    expect(complaints).toEqual([]);
    test.skip(seen.length === 0, 'this system doesn’t tell how much memory a process has');
    expect(Math.max(...seen.slice(FIRST))).toBeLessThan(1.2 * Math.max(...seen.slice(0, FIRST)));
  },
);
