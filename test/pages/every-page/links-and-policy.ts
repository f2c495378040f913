import { createHash } from 'node:crypto';
import { type APIRequestContext, expect, type Page } from '@playwright/test';

/** Links already followed: most stand on every page. */
const answering = new Set<string>();

export async function expectLinks(page: Page, request: APIRequestContext): Promise<void> {
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

/** Nothing stands before the content policy but the page's guard, which the policy knows by its hash, and the choice of paper. */
export async function expectStrictPolicy(page: Page): Promise<void> {
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
      .map((element) => ({ src: element.getAttribute('src'), text: element.textContent }));
  });
  const guard = createHash('sha256')
    .update(before[0]?.text ?? '')
    .digest('base64');
  expect(before.map(({ src }) => src)).toEqual([null, '/theme.js']);
  expect(policy).toContain(`'sha256-${guard}'`);
  expect(await page.locator('[onclick], [onload], [onerror], a[href^="javascript:"]').count()).toBe(0);
}
