/** A host that answers wrongly, a device that loses what it kept, and other sites that send photos: in a real browser. */
import { type BrowserContext, expect, type Page, test } from '@playwright/test';
import { readFileSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { allKept, siteState } from './kept.ts';
import { openDesk, ORDINARY, readFrom, sheet } from './reading.ts';
import { type HostFault, startServer, type StaticServer } from './static-server.ts';

let server: StaticServer;
let context: BrowserContext;
let page: Page;

test.beforeEach(async ({ browser }) => {
  server = await startServer();
  context = await browser.newContext({ baseURL: server.origin, locale: 'en-GB', serviceWorkers: 'allow' });
  page = await context.newPage();
});

test.afterEach(async () => {
  await context.close();
  await server.stop();
});

const notice = () => page.locator('.site-notice');
const IS_SCRIPT = /^\/_astro\/.*\.js$/;

/** The read page fetches the rest at once: other pages rest for four seconds first. */
async function keepAll(): Promise<void> {
  await page.goto('/read/');
  await allKept(page);
}

async function update(): Promise<void> {
  await page.evaluate(async () => {
    await (await navigator.serviceWorker.getRegistration())!.update().catch(() => undefined);
  });
}

test('a host that sends its home page for scripts, cached for a year: the page says so, and is whole once it recovers', async () => {
  server.misbehave((path) => (IS_SCRIPT.test(path) ? 'page' : null));
  await page.goto('/read/');
  await expect(notice()).toContainText('can’t be fetched as it should be');
  server.misbehave(() => null);
  await page.getByRole('button', { name: 'Try again' }).click();
  await expect(page.locator('read-desk')).toHaveAttribute('data-ready', '');
  await expect(notice()).toContainText('It was fetched again');
  await allKept(page);
});

test('a host that recovers at once: the page mends itself', async () => {
  let isBad = true;
  server.misbehave((path, isAnew) => {
    isBad &&= !isAnew;
    return isBad && IS_SCRIPT.test(path) ? 'page' : null;
  });
  await page.goto('/read/');
  await expect(page.locator('read-desk')).toHaveAttribute('data-ready', '');
  await expect(notice()).toContainText('It was fetched again');
});

test(
  'the reader arrives as a page, cached for a year: the photo is read all the same',
  { tag: '@release' },
  async ({ browser }) => {
    // Without a service worker, as on the very first visit.
    const bare = await browser.newContext({ baseURL: server.origin, locale: 'en-GB', serviceWorkers: 'block' });
    const first = await bare.newPage();
    let isBad = true;
    server.misbehave((path) => {
      if (!/\/worker-[^/]*\.js$/.test(path) || !isBad) return null;
      isBad = false;
      return 'page';
    });
    await openDesk(first);
    await readFrom(first, ORDINARY);
    await expect(sheet(first)).toBeVisible();
    await expect(first.locator('.site-notice')).toContainText('It is fetched again');
    expect(isBad).toBe(false);
    await bare.close();
  },
);

test('an edition that arrives damaged isn’t started; the one before works on, and the next whole one is offered', async () => {
  test.slow();
  await keepAll();
  server.newEdition();
  for (const fault of ['page', 'truncated', 'missing', 'broken', 'dying'] satisfies HostFault[]) {
    server.misbehave((path) => (path === '/' ? fault : null));
    await update();
    await expect.poll(async () => (await siteState(page))?.failed?.why).toContain('index.html');
    expect(await page.evaluate(async () => !!(await navigator.serviceWorker.getRegistration())!.waiting)).toBe(false);
  }
  for (const fault of ['page', 'truncated', 'missing'] satisfies HostFault[]) {
    server.misbehave((path) => (path === '/sw.js' ? fault : null));
    await update();
    expect(await page.evaluate(async () => !!(await navigator.serviceWorker.getRegistration())!.waiting)).toBe(false);
  }
  await page.goto('/settings/');
  await expect(page.locator('.stored')).toContainText('could not be kept');
  await page.goto('/');
  await expect(page.locator('h1')).not.toContainText('Second edition');
  server.misbehave((path) => (path === '/' ? 'slow' : null));
  await update();
  await page.getByRole('button', { name: 'Start it' }).click();
  await expect(page.locator('h1')).toContainText('Second edition');
});

test('what is damaged on the device is never served: fetched anew, said, and settings tell what was verified', async () => {
  await keepAll();
  const spoil = (pattern: string) =>
    page.evaluate(async (text) => {
      const cache = await caches.open(`dipwise ${location.origin}/`);
      const keys = (await cache.keys()).filter(({ url }) => new RegExp(text).test(url));
      for (const key of keys) {
        await cache.put(key, new Response('<!doctype html>', { headers: { 'content-type': 'text/html' } }));
      }
      return keys.length;
    }, pattern);
  expect(await spoil('/worker-[^/]*\\.js\\?|/read/\\?[^sk]|_astro/ReadDesk[^/]*\\.js')).toBeGreaterThan(2);
  await openDesk(page);
  await readFrom(page, ORDINARY);
  await expect(sheet(page)).toBeVisible();
  await expect(notice()).toContainText('It is fetched again');
  expect(await spoil('_astro/[^/]*\\.css')).toBeGreaterThan(2);
  await page.goto('/settings/');
  await page.getByRole('button', { name: 'Keep the whole site' }).click();
  await expect(page.locator('.stored-said')).toContainText('compared with what the build made');
  await expect(page.locator('.stored')).toContainText(
    /Verified.*: \d{3} kept files compared.*damaged and fetched again/s,
  );
});

test(
  'caches cleared while the worker stays: settings say so, the next page keeps them again',
  { tag: '@release' },
  async () => {
    await keepAll();
    await page.goto('/settings/');
    await page.evaluate(async () => {
      for (const name of await caches.keys()) await caches.delete(name);
    });
    await page.locator('[data-persist]').click();
    await expect(page.locator('.stored')).toContainText('not all pages work without a network');
    await keepAll();
    await server.stop();
    await page.goto('/learn/ph/');
    await expect(page.locator('h1')).toBeVisible();
  },
);

test.describe('a photo that another site posts', { tag: '@release' }, () => {
  const photo = readFileSync(`sample-images/${ORDINARY.file}`).toString('base64');

  async function postFrom(policy: string): Promise<void> {
    const html = `<meta name="referrer" content="${policy}">
      <form method="post" enctype="multipart/form-data" action="${server.origin}/read/"><input type="file" name="photo"></form>
      <script>
        const bytes = Uint8Array.from(atob('${photo}'), (c) => c.charCodeAt(0));
        const files = new DataTransfer();
        files.items.add(new File([bytes], 'theirs.jpg', { type: 'image/jpeg' }));
        document.querySelector('input').files = files.files;
        document.querySelector('form').submit();
      </script>`;
    const other = createServer((_, response) => response.setHeader('content-type', 'text/html').end(html));
    await new Promise<void>((resolve) => other.listen(0, '127.0.0.1', resolve));
    await page.goto(`http://127.0.0.1:${(other.address() as AddressInfo).port}/`);
    await page.waitForURL(`${server.origin}/read/**`);
    other.closeAllConnections();
    other.close();
  }

  test('is not taken, and the page says so', async () => {
    await keepAll();
    await postFrom('origin');
    await expect(page.getByRole('heading', { name: 'A photo was not taken' })).toBeVisible();
    await expect(sheet(page)).toHaveCount(0);
    const kept = await page.evaluate(async () =>
      (await (await caches.open(`dipwise ${location.origin}/`)).keys()).some(({ url }) => url.includes('shared-photo')),
    );
    expect(kept).toBe(false);
  });

  test('is read on the visitor’s word alone where it hides its name, as the share sheet does', async () => {
    await keepAll();
    await page.evaluate((scale) => localStorage.setItem('dipwise:scale', scale), ORDINARY.scale);
    await postFrom('no-referrer');
    await expect(page.getByRole('heading', { name: 'A photo was handed over' })).toBeVisible();
    await expect(page.locator('.progress .work')).toBeHidden();
    await page.getByRole('button', { name: 'Read it' }).click();
    await expect(sheet(page)).toBeVisible();
  });
});
