/** The site at the poolside: the server stopped, a new edition, a shared photo, the installed site. */
import { type BrowserContext, expect, type Page, test } from '@playwright/test';
import { readFileSync } from 'node:fs';
import { BUDGETS } from '../built/budgets.ts';
import { requestsOf } from '../built/files.ts';
import { PAGES } from './built.ts';
import { allKept } from './kept.ts';
import { openLog, saved, stored } from './logbook.ts';
import { letPass } from './moments.ts';
import { openDesk, ORDINARY, readFrom, sharePhoto, sheet } from './reading.ts';
import { startServer, type StaticServer } from './static-server.ts';

const IS_LATE = /\.jpg$|\/worker-[^/]*\.js$/;

let server: StaticServer;
let context: BrowserContext;
let page: Page;
const elsewhere: string[] = [];

test.beforeEach(async ({ browser }) => {
  server = await startServer();
  context = await browser.newContext({ baseURL: server.origin, locale: 'en-GB', serviceWorkers: 'allow' });
  elsewhere.length = 0;
  context.on('request', (request) => {
    const url = new URL(request.url());
    if (url.protocol.startsWith('http') && url.origin !== server.origin) elsewhere.push(request.url());
  });
  page = await context.newPage();
});

test.afterEach(async () => {
  await context.close();
  await server.stop();
  // No request leaves the origin, ever.
  expect(elsewhere).toEqual([]);
});

/** The read page fetches the rest at once: other pages rest for four seconds first. */
async function visitOnce(path = '/read/'): Promise<void> {
  await page.goto(path);
  await allKept(page);
}

test('the first load fetches no reader and no photo; once the page rests they come and stay', async () => {
  const late: string[] = [];
  context.on('request', (request) => {
    if (IS_LATE.test(new URL(request.url()).pathname)) late.push(request.url());
  });
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type())) complaints.push(message.text());
  });
  await page.goto('/', { waitUntil: 'load' });
  await page.evaluate(async () => void (await navigator.serviceWorker.ready));
  expect(late).toEqual([]);
  await allKept(page);
  expect(late.filter((url) => url.includes('/worker-')).length).toBeGreaterThan(0);
  late.length = 0;
  // From now on they come out of the cache: nothing asks the server for them.
  const asked: string[] = [];
  context.on('request', (request) => {
    if (request.serviceWorker() && IS_LATE.test(new URL(request.url()).pathname)) asked.push(request.url());
  });
  await openDesk(page);
  await readFrom(page, ORDINARY);
  await expect(sheet(page)).toBeVisible();
  expect(asked).toEqual([]);
  // The content policy stands with the worker at work.
  expect(complaints).toEqual([]);
});

test('a page that was on its way while the worker took over is in its hands as well', async () => {
  const first = await context.newPage();
  await first.goto('/');
  await page.route('**/learn/', async (route) => {
    await first.evaluate(async () => void (await navigator.serviceWorker.ready));
    await route.continue();
  });
  await page.goto('/learn/');
  await first.close();
  await allKept(page);
});

test('after one visit to the home page everything works with the server stopped, reading included', async () => {
  test.slow();
  await visitOnce('/');
  await server.stop();
  // One of each type is opened, and of all others what they consist of is fetched.
  const opened = BUDGETS.map(({ pages }) => PAGES.find((path) => pages.test(path))!);
  for (const path of opened) {
    await page.goto(path);
    await expect(page.locator('h1'), path).toBeVisible();
  }
  const lacking = await page.evaluate(
    async (addresses) => {
      const answers = await Promise.all(addresses.map(async (address) => ({ address, ok: (await fetch(address)).ok })));
      return answers.filter(({ ok }) => !ok);
    },
    [...new Set(PAGES.flatMap((path) => requestsOf(path)))],
  );
  expect(lacking).toEqual([]);
  await page.goto('/log');
  expect(new URL(page.url()).pathname).toBe('/log/');
  const card = await page.evaluate(async () => (await fetch('/card/dipwise-card-a4.pdf')).status);
  expect(card).toBe(200);
  await workOffline(1);
});

/** A round of what a visitor does by the pool, with checks that nothing of the rounds before went lost. */
async function workOffline(round: number): Promise<void> {
  await openDesk(page);
  await readFrom(page, ORDINARY);
  await page.getByRole('button', { name: 'Keep in the logbook' }).click();
  await expect(sheet(page)).toContainText('Kept in the logbook');
  await page.getByRole('button', { name: 'Take these values to the plan' }).click();
  await page.waitForURL('**/plan/');
  await page.fill('#volume', '28500');
  await expect(page.locator('.plan-sheet')).toContainText('What to do');
  await openLog(page);
  await page.locator('.write summary', { hasText: 'A note' }).click();
  await page.fill('#w-note-n', `round ${round}`);
  await page.locator('form[data-kind=note] button').click();
  await expect(page.locator('.log-entry.note').first()).toContainText(`round ${round}`);
  const now = await stored(page);
  expect(now.entries).toHaveLength(2 * round);
  expect(now.pictures).toHaveLength(round);
  expect(await saved(page, 'Save a table')).toContain(`round ${round}`);
  await page.goto('/learn/ph/');
  await expect(page.locator('h1')).toBeVisible();
}

const MINUTES = Number(process.env['OFFLINE_MINUTES'] ?? 0.05);
/** A long run goes at a person's pace: it is long in time, not in readings. */
const PAUSE_MS = Math.min(25_000, 5000 + MINUTES * 500);

test(`goes on working without a network (${MINUTES} minutes)`, { tag: '@release' }, async () => {
  test.setTimeout((MINUTES + 5) * 60_000);
  // Whatever hangs is to be named, not waited for to the end.
  page.setDefaultTimeout(120_000);
  await visitOnce();
  await server.stop();
  const start = Date.now();
  const until = start + MINUTES * 60_000;
  let round = 0;
  while (Date.now() < until) {
    round += 1;
    await workOffline(round);
    if (round % 20 === 0) console.log(`${round} rounds, ${((Date.now() - start) / 60_000).toFixed(1)} minutes`);
    if (Date.now() < until) await letPass(page, PAUSE_MS);
  }
  console.log(`${round} rounds without a network`);
});

test('a practice photo can be read with the server stopped', { tag: '@release' }, async () => {
  await visitOnce();
  await server.stop();
  await openDesk(page);
  await page.locator('button.sample').first().click();
  await expect(sheet(page)).toBeVisible();
});

test('a new edition is announced and starts on the visitor’s word', async () => {
  await visitOnce();
  await page.goto('/');
  await expect(page.locator('h1')).not.toContainText('Second edition');
  server.newEdition();
  await page.evaluate(async () => (await navigator.serviceWorker.getRegistration())!.update());
  await expect(page.locator('.site-notice')).toContainText('A new edition of Dipwise is ready');
  await page.reload();
  await expect(page.locator('h1')).not.toContainText('Second edition');
  await page.getByRole('button', { name: 'Start it' }).click();
  await expect(page.locator('h1')).toContainText('Second edition');
});

test('a new edition waits for a reading in progress, in whatever tab it is started', async () => {
  await visitOnce();
  await readFrom(page, ORDINARY);
  await expect(sheet(page)).toBeVisible();
  server.newEdition();
  const other = await context.newPage();
  await other.goto('/');
  await page.evaluate(async () => (await navigator.serviceWorker.getRegistration())!.update());
  await expect(page.locator('.site-notice')).toContainText('once you have kept');
  await expect(page.getByRole('button', { name: 'Start it' })).toHaveCount(0);
  await other.getByRole('button', { name: 'Start it' }).click();
  await expect(other.locator('h1')).toContainText('Second edition');
  // The reading is still there, and can be kept.
  await expect(page.locator('.site-notice')).toContainText('started in another tab');
  await page.getByRole('button', { name: 'Keep in the logbook' }).click();
  await expect(sheet(page)).toContainText('Kept in the logbook');
  expect((await stored(page)).entries).toHaveLength(1);
});

test('a photo shared from another app is read', { tag: '@release' }, async () => {
  await visitOnce();
  await sharePhoto(page, ORDINARY, '/read/');
  await page.waitForURL('**/read/**');
  await expect(sheet(page)).toBeVisible();
  expect(new URL(page.url()).search).toBe('');
  // Its reading waits in the tab until it is kept; put away, nothing is left that could be read once more.
  await page.reload();
  await expect(sheet(page)).toContainText('This reading isn’t in the logbook yet');
  await page.getByRole('button', { name: 'Discard this reading' }).click();
  await page.reload();
  await expect(page.locator('read-desk')).toHaveAttribute('data-scales', /\d/);
  const waits = await page.evaluate(async () => {
    const shared = await caches.match('/read/?shared-photo');
    return { isShared: shared !== undefined, isUnkept: sessionStorage.getItem('dipwise:unkept') !== null };
  });
  expect(waits).toEqual({ isShared: false, isUnkept: false });
  await expect(sheet(page)).toHaveCount(0);
  await expect(page.locator('.progress .work')).toBeHidden();
});

test('the browser finds nothing against installing it', { tag: '@release' }, async () => {
  await visitOnce();
  const session = await context.newCDPSession(page);
  const { errors, data } = await session.send('Page.getAppManifest');
  expect(errors).toEqual([]);
  const { installabilityErrors } = await session.send('Page.getInstallabilityErrors');
  // The tests' windows are private ones, in which nothing can be installed.
  expect(installabilityErrors.map(({ errorId }) => errorId).filter((id) => id !== 'in-incognito')).toEqual([]);
  const manifest = JSON.parse(data!) as { icons: { src: string }[]; share_target: object; file_handlers: object[] };
  for (const { src } of manifest.icons) expect((await page.request.get(src)).status(), src).toBe(200);
  expect(manifest.share_target).toBeDefined();
  expect(manifest.file_handlers).toHaveLength(1);
});

test('a scale opened with the installed site is taken in', async () => {
  await page.addInitScript(
    (text) => {
      const file = { getFile: () => Promise.resolve(new File([text], 'mine.dipwise-scale.json')) };
      const setConsumer = (take: (launch: object) => void) => take({ files: [file] });
      Object.defineProperty(globalThis, 'launchQueue', { value: { setConsumer } });
    },
    readFileSync('src/content/scales/practice-four.json', 'utf8'),
  );
  await page.goto('/scales/');
  await expect(page.locator('.shelf-said')).toContainText('is kept');
});
