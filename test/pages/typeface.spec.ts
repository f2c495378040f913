/** The typeface as a visitor gets it: by itself, late, or not at all. */
import { expect, type Page, test } from '@playwright/test';
import { bringFaces, FACES, setFace } from './layout/faces.ts';

/** A page of text, a form, a page that fills itself. */
const PAGES = ['/', '/learn/free-chlorine/', '/plan/', '/log/'];

test('a page whose typeface comes late stays where it is', async ({ page }) => {
  await page.addInitScript(() => {
    const shifts: number[] = [];
    Object.assign(window, { shifts });
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries()) shifts.push((entry as PerformanceEntry & { value: number }).value);
    }).observe({ type: 'layout-shift', buffered: true });
  });
  for (const path of PAGES) {
    let come: () => void = () => undefined;
    const awaited = new Promise<void>((resolve) => (come = resolve));
    await page.route('**/*.woff2', async (route) => {
      await awaited;
      await route.continue();
    });
    await page.goto(path, { waitUntil: 'domcontentloaded' });
    await expect(page.locator('h1')).toBeVisible();
    // Painted without it.
    await expect.poll(() => page.evaluate(() => performance.getEntriesByName('first-contentful-paint').length)).toBe(1);
    const faces = page.waitForResponse('**/*.woff2');
    come();
    await faces;
    await page.waitForLoadState('networkidle');
    const shifts = await page.evaluate(() => (window as unknown as { shifts: number[] }).shifts);
    expect(
      shifts.reduce((sum, one) => sum + one, 0),
      path,
    ).toBe(0);
    await page.unroute('**/*.woff2');
  }
});

test('without the typeface a page is whole, and says so by no error of its own', async ({ page }) => {
  const thrown: string[] = [];
  page.on('pageerror', (error) => thrown.push(error.message));
  await page.route('**/*.woff2', (route) => route.abort());
  await page.goto('/learn/free-chlorine/', { waitUntil: 'networkidle' });
  expect(await facesOf(page)).not.toContain('Notebook loaded');
  await expect(page.locator('h1')).toBeVisible();
  expect(thrown).toEqual([]);
});

test('the trial of faces does change the face', async ({ page }) => {
  await page.goto('/learn/free-chlorine/', { waitUntil: 'networkidle' });
  await bringFaces(page);
  const widths: number[] = [];
  for (const face of FACES) {
    await setFace(page, face);
    widths.push(
      await page.evaluate(() => {
        const words = Object.assign(document.createElement('span'), { textContent: 'Total alkalinity 7.4 mg/L' });
        words.style.whiteSpace = 'nowrap';
        document.querySelector('main')!.append(words);
        const { width } = words.getBoundingClientRect();
        words.remove();
        return width;
      }),
    );
  }
  const [shipped, blocked, wide, narrow] = widths as [number, number, number, number];
  expect(wide / shipped).toBeCloseTo(1.2, 1);
  expect(narrow / shipped).toBeCloseTo(0.8, 1);
  // The device's serif is fitted to the same measure where it is one that is known; else it is what it is.
  expect(blocked).toBeGreaterThan(0);
});

/** Of an average text: a line of 60 letters is off by about one. */
const WIDTH_TOLERANCE = 0.02;

test('what stands in for the typeface takes the same room, as far as this machine has it', async ({ page }) => {
  await page.goto('/learn/free-chlorine/', { waitUntil: 'networkidle' });
  await bringFaces(page);
  const measured = await page.evaluate(async () => {
    const words = [...document.querySelectorAll('main p')].map((part) => part.textContent).join(' ');
    // Large, as some systems round the width of each letter to whole pixels.
    const boxOf = (font: string) => {
      const line = Object.assign(document.createElement('span'), { textContent: words });
      line.style.cssText = `position: absolute; white-space: nowrap; font: ${font}; line-height: normal`;
      document.body.append(line);
      const { width, height } = line.getBoundingClientRect();
      line.remove();
      return { width, height };
    };
    const families = [...new Set([...document.fonts].map(({ family }) => family.replaceAll('"', '')))];
    const found = [];
    for (const family of families.filter((name) => name.startsWith('Notebook by'))) {
      for (const cut of ['400', 'italic 400', '700']) {
        const faces = await document.fonts.load(`${cut} 100px '${family}'`).catch(() => []);
        if (!faces.some(({ status }) => status === 'loaded')) continue;
        const [own, other] = [boxOf(`${cut} 100px 'Trial shipped'`), boxOf(`${cut} 100px '${family}'`)];
        found.push({ face: `${family} ${cut}`, width: other.width / own.width, height: other.height - own.height });
      }
    }
    return found;
  });
  test.skip(measured.length === 0, 'none of the serifs that can stand in is on this machine');
  for (const { face, width, height } of measured) {
    expect(Math.abs(width - 1), face).toBeLessThan(WIDTH_TOLERANCE);
    expect(Math.abs(height), face).toBeLessThanOrEqual(1);
  }
});

function facesOf(page: Page): Promise<string[]> {
  return page.evaluate(() => [...document.fonts].map(({ family, status }) => `${family} ${status}`));
}
