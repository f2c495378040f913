/** The site under a path of a host that has other sites too: nothing may be asked of the host outside that path. */
import { expect, type Page, test } from '@playwright/test';
import { existsSync } from 'node:fs';
import { resolve } from 'node:path';
import { pagesIn } from '../pages/built.ts';
import { allKept } from '../pages/kept.ts';
import { ORDINARY, readFrom, sharePhoto, sheet } from '../pages/reading.ts';
import { startServer, type StaticServer } from '../pages/static-server.ts';

const FOLDER = `${resolve(process.env['BASE_FOLDER'] ?? 'node_modules/.cache/base-path')}/`;
const BASE = '/garden/';
if (!existsSync(FOLDER)) throw new Error('there is no build under a path: run `npm run base`');

let server: StaticServer;
let asked: string[];
let complaints: string[];

test.beforeEach(async ({ context }) => {
  server = await startServer({ folder: FOLDER, base: BASE });
  [asked, complaints] = [[], []];
  context.on('request', (request) => asked.push(request.url()));
  context.on('console', (message) => {
    if (['error', 'warning'].includes(message.type())) complaints.push(`${message.page()?.url()}: ${message.text()}`);
  });
  context.on('weberror', (error) => complaints.push(String(error.error())));
});

test.afterEach(async ({ context }) => {
  await context.close();
  await server.stop();
  expect(asked.length).toBeGreaterThan(0);
  expect(asked.filter((url) => url.startsWith('http') && !url.startsWith(address()))).toEqual([]);
  expect(complaints).toEqual([]);
});

const address = (path = '') => `${server.origin}${BASE}${path}`;

async function open(page: Page, path = ''): Promise<void> {
  await page.goto(address(path));
  await expect(page.locator('h1')).toBeVisible();
}

test('every page opens, and every address on it lies under the path and answers', async ({ page, request }) => {
  const pages = pagesIn(FOLDER);
  expect(pages.length).toBeGreaterThan(20);
  const answering = new Set<string>();
  for (const path of pages) {
    await open(page, path.slice(1));
    const found = await page.locator('[href], [src], [action], [data-root]').evaluateAll((all) =>
      all
        .flatMap((one) => ['href', 'src', 'action', 'data-root'].map((name) => one.getAttribute(name)))
        // Empty: a button's form, or a picture that waits for its photo.
        .filter((value): value is string => !!value && !/^(#|data:|blob:)/.test(value))
        .map((value) => new URL(value, location.href).href.split('#')[0]!),
    );
    for (const url of new Set(found)) {
      expect(url.startsWith(address()), `${url} on ${path}`).toBe(true);
      if (answering.has(url)) continue;
      expect((await request.get(url)).status(), `${url} on ${path}`).toBe(200);
      answering.add(url);
    }
  }
  expect(answering.has(address('theme.js'))).toBe(true);
  expect(answering.has(address('card/dipwise-card-a4.pdf'))).toBe(true);
});

test('a photo is read, planned with, kept in the logbook and looked up', async ({ page }) => {
  await open(page);
  await page.getByRole('navigation', { name: 'Main' }).getByRole('link', { name: 'Read' }).click();
  await expect(page.locator('read-desk')).toHaveAttribute('data-ready', '');
  await readFrom(page, ORDINARY);
  await expect(sheet(page)).toBeVisible();
  expect(asked.some((url) => url.startsWith(address('_astro/worker-')))).toBe(true);
  await page.getByRole('button', { name: 'Keep in the logbook' }).click();
  await expect(sheet(page)).toContainText('Kept in the logbook');
  await page.getByRole('button', { name: 'Take these values to the plan' }).click();
  await page.waitForURL(address('plan/'));
  await page.fill('#volume', '28500');
  await expect(page.locator('.plan-sheet')).toContainText('What to do');
  await open(page, 'log/');
  await expect(page.locator('.log-entry.reading')).toHaveCount(1);
});

test('a practice photo is read', async ({ page }) => {
  await open(page, 'read/');
  await expect(page.locator('read-desk')).toHaveAttribute('data-ready', '');
  await page.locator('button.sample').first().click();
  await expect(sheet(page)).toBeVisible();
});

test('the search leads to an explainer, whose links lead on under the path', async ({ page }) => {
  await open(page, 'learn/');
  await page.getByRole('searchbox').fill('aeration');
  const first = page.locator('learn-search li a').first();
  await expect(first).toBeVisible();
  expect(await first.evaluate((link: HTMLAnchorElement) => link.href)).toContain(address('learn/'));
  await first.click();
  await page.waitForURL(/\/garden\/learn\/[a-z-]+\//);
  await open(page, 'learn/total-alkalinity/');
  await page.getByRole('main').getByRole('link', { name: 'the plan', exact: true }).first().click();
  await page.waitForURL(address('plan/'));
});

test('the chosen paper is there before the first paint', async ({ page }) => {
  await open(page, 'settings/');
  await page.locator('input[name=theme][value=night]').check();
  await open(page);
  await expect(page.locator('html')).toHaveAttribute('data-theme', 'night');
});

test('the installed site starts, and takes shared photos, under the path', async ({ page, context }) => {
  await open(page);
  await allKept(page);
  const session = await context.newCDPSession(page);
  const { errors, data } = await session.send('Page.getAppManifest');
  expect(errors).toEqual([]);
  const manifest = JSON.parse(data!) as Record<string, string> & {
    icons: { src: string }[];
    shortcuts: { url: string }[];
    share_target: { action: string };
    file_handlers: { action: string }[];
  };
  expect(manifest).toMatchObject({ id: BASE, start_url: BASE, scope: BASE });
  expect(manifest.share_target.action).toBe(`${BASE}read/`);
  const named = [...manifest.icons.map(({ src }) => src), ...manifest.shortcuts.map(({ url }) => url)];
  for (const path of [...named, ...manifest.file_handlers.map(({ action }) => action)]) {
    expect(path.startsWith(BASE), path).toBe(true);
    expect((await page.request.get(`${server.origin}${path}`)).status(), path).toBe(200);
  }
  await sharePhoto(page, ORDINARY, manifest.share_target.action);
  await page.waitForURL(address('read/**'));
  await expect(sheet(page)).toBeVisible();
});

test('what another site of the same host keeps is left alone', async ({ page }) => {
  const stale = address('_astro/stale.js?hash');
  await open(page);
  await allKept(page);
  // Another copy of this site at the root of the host, another edition here, and somebody else.
  const names = ['dipwise ORIGIN/', 'dipwise ORIGIN/garden/', 'theirs'].map((name) =>
    name.replace('ORIGIN', server.origin),
  );
  await page.evaluate(
    async ([all, url]) => {
      for (const name of all) await (await caches.open(name)).put(url, new Response('of theirs'));
    },
    [names, stale] as const,
  );
  const holding = () =>
    page.evaluate(
      async ([all, url]) => {
        const held = await Promise.all(all.map(async (name) => !!(await (await caches.open(name)).match(url))));
        return all.filter((_, i) => held[i]);
      },
      [names, stale] as const,
    );
  await open(page, 'read/');
  await expect.poll(holding).toEqual([names[0], names[2]]);
  await open(page, 'settings/');
  await page.getByRole('button', { name: 'Erase everything…' }).click();
  await page.locator('dialog [name=site]').check();
  await page.locator('dialog button[value=erase]').click();
  await expect(page.locator('.erase-said')).toContainText('Everything is erased');
  expect(await holding()).toEqual([names[0], names[2]]);
});

test('everything works with the server stopped, and nothing outside the path is taken over', async ({ page }) => {
  await open(page);
  await allKept(page);
  const scopes = await page.evaluate(async () =>
    (await navigator.serviceWorker.getRegistrations()).map(({ scope }) => scope),
  );
  expect(scopes).toEqual([address()]);
  await server.stop();
  for (const path of ['', 'read/', 'plan/', 'learn/ph/', 'log/', 'settings/']) await open(page, path);
  await page.goto(address('log'));
  expect(page.url()).toBe(address('log/'));
  await open(page, 'read/');
  await expect(page.locator('read-desk')).toHaveAttribute('data-ready', '');
  await readFrom(page, ORDINARY);
  await expect(sheet(page)).toBeVisible();
});
