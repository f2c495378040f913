import { type APIRequestContext, expect, type Page, test } from '@playwright/test';
import { barriersOn } from './accessible.ts';
import { overflow, PAGES } from './built.ts';

test('the build has the pages the site is made of', () => {
  expect(PAGES).toEqual(expect.arrayContaining(['/', '/read/', '/plan/', '/card/']));
});

/** Links already followed: most stand on every page. */
const answering = new Set<string>();

for (const path of PAGES) {
  // In one visit: coming to a page takes longer than most of what is looked at there.
  test(`${path} is sound`, async ({ page, baseURL, request }) => {
    const complaints = complaintsOf(page);
    const elsewhere: string[] = [];
    page.on('request', (request) => {
      const url = new URL(request.url());
      if (url.protocol.startsWith('http') && url.origin !== baseURL) elsewhere.push(url.href);
    });
    await page.goto(path, { waitUntil: 'networkidle' });
    await test.step('has a name, one heading, a strict policy', async () => {
      await expectStrictPolicy(page);
      expect(await page.title()).toMatch(/Dipwise/);
      expect(await page.locator('h1').count()).toBe(1);
    });
    await test.step('has links that lead somewhere', () => expectLinks(page, request));
    await test.step('fits narrow and wide', async () => {
      const { width, height } = page.viewportSize()!;
      for (const width of [320, 390, 768, 1280]) {
        await page.setViewportSize({ width, height: 800 });
        expect(await overflow(page), `${width} px`).toBeLessThanOrEqual(0);
      }
      await page.setViewportSize({ width, height });
    });
    await test.step('loads without complaint, and stays on the site', () => {
      expect(complaints).toEqual([]);
      expect(elsewhere).toEqual([]);
    });
    await test.step('is accessible, in light and dark', async () => expect(await barriersOn(page)).toEqual([]));
  });
}

async function expectLinks(page: Page, request: APIRequestContext): Promise<void> {
  const links = await page.locator('a[href]').evaluateAll((all) => all.map((a) => (a as HTMLAnchorElement).href));
  for (const link of new Set(links.filter((url) => url.startsWith('http')).map((url) => url.split('#')[0]!))) {
    if (answering.has(link)) continue;
    expect((await request.get(link)).status(), link).toBe(200);
    answering.add(link);
  }
  const missing = await page
    .locator('a[href^="#"]')
    .evaluateAll((all) =>
      all.map((a) => a.getAttribute('href')!.slice(1)).filter((id) => id !== '' && !document.getElementById(id)),
    );
  expect(missing).toEqual([]);
}

/** Nothing stands before the content policy but the choice of paper. */
async function expectStrictPolicy(page: Page): Promise<void> {
  const policy = (await page.locator('meta[http-equiv="content-security-policy"]').getAttribute('content'))!;
  for (const part of ["default-src 'none'", "connect-src 'self'", "object-src 'none'", "base-uri 'none'"]) {
    expect(policy).toContain(part);
  }
  expect(policy).not.toMatch(/unsafe|\*|https?:/);
  // What stands before it in the head is the site's own.
  const before = await page.evaluate(() => {
    const meta = document.querySelector('meta[http-equiv="content-security-policy"]')!;
    return [...document.querySelectorAll('script, iframe, object, img, body *')]
      .filter((element) => (meta.compareDocumentPosition(element) & Node.DOCUMENT_POSITION_PRECEDING) !== 0)
      .map((element) => element.getAttribute('src'));
  });
  expect(before).toEqual(['/theme.js']);
  expect(await page.locator('[onclick], [onload], [onerror], a[href^="javascript:"]').count()).toBe(0);
}

function complaintsOf(page: Page): string[] {
  const complaints: string[] = [];
  page.on('console', (message) => {
    const isOurs = !message.text().includes('Service Worker registration blocked by Playwright');
    if (isOurs && ['error', 'warning'].includes(message.type())) complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  return complaints;
}
