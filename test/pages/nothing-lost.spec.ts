/** What the browser, the device or another tab may do to the logbook. */
import { expect, type Page, test } from '@playwright/test';
import { readFileSync } from 'node:fs';
import { bringIn, chooseFile, jsonOf, openLog, saved, stored } from './logbook.ts';
import { letPass } from './moments.ts';
import { openDesk, ORDINARY, readFrom, sheet } from './reading.ts';
import { POOL, season } from './season.ts';

/** A real picture of about the size of a flattened card, whose content doesn't matter here. */
const PICTURE = readFileSync('sample-images/after-shock-treatment.jpg').toString('base64');

/** Readings with pictures, all of one round: they must arrive together. */
async function roundFile(round: number, readings: number, pictures: number): Promise<string> {
  const { entries } = season(readings);
  const own = entries.map((entry, i) => ({
    ...entry,
    id: `round-${round}-${i}`,
    note: `round ${round}`,
    time: new Date(Date.parse(entry.time) + round * 60_000).toISOString(),
    ...(entry.kind === 'reading' && i < pictures ? { pictureId: `picture-${round}-${i}` } : {}),
  }));
  const shown = own.flatMap((entry) => ('pictureId' in entry && entry.pictureId ? [entry.pictureId] : []));
  return jsonOf(
    { pools: [POOL], entries: own },
    shown.map((id) => ({ id, base64: PICTURE })),
  );
}

const ROUNDS = Number(process.env['KILL_ROUNDS'] ?? 4);

test(
  `a tab killed in mid-write loses nothing and leaves nothing half written (${ROUNDS} rounds)`,
  { tag: '@release' },
  async ({ playwright, launchOptions, baseURL }, testInfo) => {
    test.setTimeout(60_000 + ROUNDS * 20_000);
    // A profile on the disk: private windows keep their stores in memory.
    const profile = testInfo.outputPath('profile');
    const context = await playwright.chromium.launchPersistentContext(profile, {
      ...launchOptions,
      baseURL: baseURL!,
      serviceWorkers: 'block',
    });
    const expected = new Map<number, number>();
    const outcomes = { whole: 0, none: 0, acknowledged: 0 };
    let delay = 20;
    for (let round = 0; round < ROUNDS; round++) {
      const page = await context.newPage();
      await openLog(page);
      const file = await roundFile(round, 20, 6);
      const sent = JSON.parse(file) as { entries: unknown[]; pictures: unknown[] };
      const entries = sent.entries.length;
      await chooseFile(page, `round-${round}.json`, file);
      await expect(page.locator('.import-preview')).toBeVisible();
      const acknowledged = await killWhileWriting(page, delay);
      const after = await context.newPage();
      await after.goto('/card/');
      const now = await rounds(after);
      const came = now.entries[`round ${round}`] ?? 0;
      const pictures = now.pictures.filter((id) => id.startsWith(`picture-${round}-`));
      expect([0, entries], `round ${round}: entries`).toContain(came);
      expect(pictures, `round ${round}: pictures`).toHaveLength(came === 0 ? 0 : sent.pictures.length);
      expect(now.imports.includes(`round-${round}.json`)).toBe(came > 0);
      if (acknowledged) expect(came, `round ${round}: what was said to be kept`).toBe(entries);
      outcomes[came > 0 ? 'whole' : 'none'] += 1;
      if (acknowledged) outcomes.acknowledged += 1;
      expected.set(round, came);
      for (const [earlier, kept] of expected)
        expect(now.entries[`round ${earlier}`] ?? 0, `round ${earlier}`).toBe(kept);
      // Sooner after what came whole, later after what did not come: so it strikes while the write is going on.
      delay = Math.max(0, delay + (came > 0 ? -1 : 1) * (2 + ((round * 7) % 11)));
      await after.close();
      if (round % 20 === 19) console.log(`${round + 1} rounds: ${JSON.stringify(outcomes)}`);
    }
    console.log(`killed ${ROUNDS} times: ${JSON.stringify(outcomes)}, at last after ${delay} ms`);
    expect(outcomes.whole + outcomes.none).toBe(ROUNDS);
    if (ROUNDS >= 50) expect(Math.min(outcomes.whole, outcomes.none)).toBeGreaterThan(ROUNDS / 10);
    await context.close();
  },
);

/** How many entries of each round there are, and which pictures and imports, without fetching every picture. */
function rounds(
  page: Page,
): Promise<{ entries: Record<string, number>; pictures: readonly string[]; imports: readonly string[] }> {
  return page.evaluate(async () => {
    const result = <T>(request: IDBRequest<T>) =>
      new Promise<T>((resolve, reject) => {
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(new Error('the store can’t be read'));
      });
    const db = await result(indexedDB.open('dipwise-log'));
    const table = (name: string) => db.transaction(name).objectStore(name);
    const entries: Record<string, number> = {};
    for (const { note } of (await result(table('entries').getAll())) as { note: string }[]) {
      entries[note] = (entries[note] ?? 0) + 1;
    }
    const pictures = (await result(table('pictures').getAllKeys())) as string[];
    const imports = ((await result(table('imports').getAll())) as { fileName: string }[]).map((one) => one.fileName);
    db.close();
    return { entries, pictures, imports };
  });
}

/** @returns whether the page had said that it was kept */
async function killWhileWriting(page: Page, delay: number): Promise<boolean> {
  const session = await page.context().newCDPSession(page);
  await page.evaluate((millis) => {
    const bring = [...document.querySelectorAll('button')].find(({ textContent }) => textContent === 'Bring it in')!;
    bring.click();
    return new Promise((resolve) => setTimeout(resolve, millis));
  }, delay);
  const said = await page.locator('.transfer-said').textContent();
  const crashed = page.waitForEvent('crash');
  session.send('Page.crash').catch(() => undefined);
  await crashed;
  await page.close();
  return said?.includes('in the logbook') ?? false;
}

test('a full device is told of, nothing is half written, and the reading can be saved', async ({ page, baseURL }) => {
  await openDesk(page);
  await readFrom(page, ORDINARY);
  await expect(sheet(page)).toBeVisible();
  const session = await page.context().newCDPSession(page);
  const { usage } = await session.send('Storage.getUsageAndQuota', { origin: baseURL! });
  await session.send('Storage.overrideQuotaForOrigin', { origin: baseURL!, quotaSize: usage + 1000 });
  await page.getByRole('button', { name: 'Keep in the logbook' }).click();
  await expect(sheet(page)).toContainText('no room left');
  expect((await stored(page)).entries).toEqual([]);
  expect((await stored(page)).pictures).toEqual([]);
  const file = await saved(page, 'Save this reading to a file');
  await session.send('Storage.overrideQuotaForOrigin', { origin: baseURL! });
  await openLog(page);
  await bringIn(page, file);
  const back = await stored(page);
  expect(back.entries).toHaveLength(1);
  expect(back.pictures).toHaveLength(1);
});

test('a full device leaves an import as if it had not been', async ({ page, baseURL }) => {
  // The limit stands before anything is written: the browser remembers for a while how much room it had.
  const session = await page.context().newCDPSession(page);
  await session.send('Storage.overrideQuotaForOrigin', { origin: baseURL!, quotaSize: 600_000 });
  await openLog(page);
  await bringIn(page, await jsonOf(season(5)));
  const before = await stored(page);
  await chooseFile(page, 'large.json', await roundFile(1, 12, 8));
  await page.getByRole('button', { name: 'Bring it in' }).click();
  await expect(page.locator('.transfer-said')).toContainText('no room left');
  expect(await stored(page)).toEqual(before);
});

test('where the browser keeps nothing, it says so, works on, and can be saved', async ({ page }) => {
  await page.addInitScript(() => {
    const denied = () => {
      throw new DOMException('denied', 'SecurityError');
    };
    Object.defineProperty(globalThis, 'indexedDB', { value: { open: denied, deleteDatabase: denied } });
    Object.defineProperty(globalThis, 'localStorage', { get: denied });
  });
  await openLog(page);
  await expect(page.locator('.notices')).toContainText('lasts until the page is closed');
  const file = await jsonOf(season(4));
  await bringIn(page, file);
  await expect(page.locator('.log-entry').first()).toBeVisible();
  expect((JSON.parse(await saved(page, 'Save everything')) as { entries: unknown[] }).entries.length).toBeGreaterThan(
    3,
  );
});

test('entries that the browser has cleared away are told of', async ({ page, baseURL }) => {
  await openLog(page);
  await bringIn(page, await jsonOf(season(4)));
  await page.goto('/card/');
  const session = await page.context().newCDPSession(page);
  await session.send('Storage.clearDataForOrigin', { origin: baseURL!, storageTypes: 'indexeddb' });
  await openLog(page);
  await expect(page.locator('.notices')).toContainText(/\d entries were kept here/);
});

test('a clock that was set back is told of', async ({ page }) => {
  await openLog(page);
  await bringIn(page, await jsonOf(season(2)));
  await page.clock.install({ time: new Date(Date.now() - 40 * 86_400_000) });
  await openLog(page);
  await expect(page.locator('.notices')).toContainText('clock stands before');
});

/** Writes a store as another version of the program would have left it. */
function plant(page: Page, version: number, file: string): Promise<void> {
  const { pools, entries } = JSON.parse(file) as { pools: unknown[]; entries: unknown[] };
  return page.evaluate(
    async ([version, pools, entries]) => {
      const db = await new Promise<IDBDatabase>((resolve) => {
        const opening = indexedDB.open('dipwise-log', version);
        opening.onupgradeneeded = () => {
          for (const table of ['pools', 'entries', 'pictures', 'scales', 'bin', 'imports', 'meta']) {
            const store = opening.result.createObjectStore(table, { keyPath: 'id' });
            if (table === 'entries') store.createIndex('by-pool-and-time', ['poolId', 'time']);
          }
        };
        opening.onsuccess = () => resolve(opening.result);
      });
      const transaction = db.transaction(['pools', 'entries'], 'readwrite');
      for (const pool of pools) transaction.objectStore('pools').put(pool);
      for (const entry of entries) transaction.objectStore('entries').put(entry);
      await new Promise((resolve) => (transaction.oncomplete = resolve));
      db.close();
    },
    [version, pools, entries] as const,
  );
}

for (const version of [1, 2, 3]) {
  test(`a store of version ${version} opens as it was`, async ({ page }) => {
    await page.goto('/card/');
    await plant(page, version, readFileSync(`test/core/log/versions/v${version}.json`, 'utf8'));
    await openLog(page);
    await expect(page.locator('.log-entry.reading')).toContainText('After the rain');
    await expect(page.locator('.log-entry.reading')).toContainText('1.5 mg/L');
    await expect(page.locator('.log-entry.addition')).toContainText('350 mL Muriatic acid');
  });
}

test('a store of a later version is left alone and can be saved as it is', async ({ page }) => {
  await page.goto('/card/');
  await plant(page, 99, readFileSync('test/core/log/versions/v4.json', 'utf8'));
  await openLog(page);
  await expect(page.locator('.notices')).toContainText('written by a newer Dipwise');
  await expect(page.locator('.write')).toBeHidden();
  const copy = JSON.parse(await saved(page, 'Save a copy as it is')) as {
    version: number;
    tables: { entries: unknown[] };
  };
  expect(copy.version).toBe(99);
  expect(copy.tables.entries).toHaveLength(4);
});

test('a migration interrupted by a crash begins again and loses nothing', { tag: '@release' }, async ({ context }) => {
  const { entries } = season(2000, 0.25);
  const old = await jsonOf({ pools: [POOL], entries });
  for (const delay of [0, 30]) {
    const planter = await context.newPage();
    await planter.goto('/card/');
    await planter.evaluate(
      () => new Promise((resolve) => (indexedDB.deleteDatabase('dipwise-log').onsuccess = resolve)),
    );
    await plant(planter, 2, old);
    await planter.close();
    const page = await context.newPage();
    const session = await context.newCDPSession(page);
    await page.goto('/log/', { waitUntil: 'commit' });
    await letPass(page, delay);
    const crashed = page.waitForEvent('crash');
    session.send('Page.crash').catch(() => undefined);
    await crashed;
    await page.close();
    const after = await context.newPage();
    await openLog(after);
    expect((await stored(after)).entries).toHaveLength(entries.length);
    await after.close();
  }
});

test('a newer program in another tab takes over, and this one says so', async ({ page, context }) => {
  await openLog(page);
  await bringIn(page, await jsonOf(season(3)));
  const newer = await context.newPage();
  await newer.goto('/card/');
  await newer.evaluate(() => new Promise((resolve) => (indexedDB.open('dipwise-log', 99).onsuccess = resolve)));
  await expect(page.locator('.notices')).toContainText('A newer Dipwise has been opened');
  await page.locator('.log-entry').first().getByRole('button', { name: 'Delete' }).click();
  await expect(page.locator('.list-said')).toContainText('nothing was changed');
});

test('the browser is asked to hold on to the store after the first kept reading, and not before', async ({ page }) => {
  await page.addInitScript(() => {
    const asked = globalThis as unknown as { asked: number };
    asked.asked = 0;
    navigator.storage.persist = () => {
      asked.asked += 1;
      return Promise.resolve(true);
    };
  });
  const asked = () => page.evaluate(() => (globalThis as unknown as { asked: number }).asked);
  await openLog(page);
  expect(await asked()).toBe(0);
  await openDesk(page);
  await readFrom(page, ORDINARY);
  await expect(sheet(page)).toBeVisible();
  expect(await asked()).toBe(0);
  await page.getByRole('button', { name: 'Keep in the logbook' }).click();
  await expect(sheet(page)).toContainText('Kept in the logbook');
  await expect.poll(asked).toBe(1);
});
