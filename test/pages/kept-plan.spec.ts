/** A plan that is kept: found again from everywhere, and never done twice. */
import { type BrowserContext, expect, type Page, test } from '@playwright/test';
import { bringIn, openLog, saved } from './logbook.ts';

const TYPED = [
  ['ph', '8.2'],
  ['total-alkalinity', '110'],
  ['free-chlorine', '1'],
  ['cyanuric-acid', '45'],
  ['temperature', '26'],
  ['salt', '2200'],
] as const;

async function planned(page: Page): Promise<void> {
  await page.goto('/plan/');
  await expect(page.locator('plan-desk')).toHaveAttribute('data-ready', '');
  await page.fill('#volume', '28500');
  for (const [id, value] of TYPED) await page.fill(`#reading-${id}`, value);
  await expect(page.locator('.step')).toHaveCount(3);
}

/** The kinds and plans of all entries, read past the site's own code. */
function entriesIn(page: Page): Promise<{ additions: number; done: number; plans: number }> {
  return page.evaluate(async () => {
    const db = await new Promise<IDBDatabase>((resolve) => {
      const opening = indexedDB.open('dipwise-log');
      opening.onsuccess = () => resolve(opening.result);
    });
    const all = await new Promise<{ kind: string; rounds?: { done: unknown[] }[] }[]>((resolve) => {
      const request = db.transaction('entries').objectStore('entries').getAll();
      request.onsuccess = () => resolve(request.result as never);
    });
    db.close();
    const plans = all.filter(({ kind }) => kind === 'plan');
    const done = plans.flatMap(({ rounds }) => rounds!.flatMap((round) => round.done)).length;
    return { additions: all.filter(({ kind }) => kind === 'addition').length, done, plans: plans.length };
  });
}

const marks = (page: Page) => page.locator('.step').getByRole('button', { name: /^Mark/ });

test('is found again from the home page, the log and its own address, with what is done', async ({ page }) => {
  await planned(page);
  await marks(page).first().click();
  await expect(page.locator('.step-ticked')).toHaveCount(1);
  const address = page.url();
  expect(address).toMatch(/#plan-/);
  await page.reload();
  await expect(page.locator('.step-ticked')).toHaveCount(1);
  await expect(page.locator('#reading-ph')).toHaveValue('8.2');
  await expect(page.locator('.step-said').nth(1)).toContainText(/Wait until .* to go/);
  await page.goto('/');
  await page.getByRole('link', { name: 'Go on with the plan' }).click();
  await expect(page.locator('.step-ticked')).toHaveCount(1);
  await openLog(page);
  await expect(page.locator('.now .open-plan')).toContainText('one step of it done');
  await page.locator('.log-entry.plan').getByRole('link', { name: 'Open the plan' }).click();
  await expect(page.locator('.step-ticked')).toHaveCount(1);
  await page.goto('/plan/');
  await page.evaluate((to) => (location.href = to), address);
  await expect(page.locator('.step-ticked')).toHaveCount(1);
});

test('works the rest out anew where another amount went in', async ({ page }) => {
  await planned(page);
  await page.getByRole('button', { name: 'Keep this plan' }).click();
  await expect(page.locator('.plan-sheet')).toContainText('A plan you keep');
  await page.locator('.step').first().getByLabel('Amount').fill('100');
  await marks(page).first().click();
  await expect(page.locator('.plan-sheet')).toContainText('Another amount went in than was planned');
  await expect(page.locator('.earlier')).toContainText('100 mL');
  await openLog(page);
  await expect(page.locator('.log-entry.addition')).toContainText('100 mL');
});

test('can’t be done twice from two tabs, nor by two presses', async ({ page, context }) => {
  await planned(page);
  await page.getByRole('button', { name: 'Keep this plan' }).click();
  await expect(page).toHaveURL(/#plan-/);
  const other = await context.newPage();
  await other.goto(page.url());
  await expect(marks(other).first()).toBeVisible();
  await marks(page).first().dblclick();
  await expect(page.locator('.step-ticked')).toHaveCount(1);
  // The other tab hears of it, and has nothing left to press for this step.
  await expect(other.locator('.step-ticked')).toHaveCount(1);
  expect(await entriesIn(page)).toEqual({ additions: 1, done: 1, plans: 1 });
});

test('is put away and taken up again, and the home page goes by it', async ({ page }) => {
  await planned(page);
  await page.getByRole('button', { name: 'Keep this plan' }).click();
  await page.getByRole('button', { name: 'Put this plan away' }).click();
  await expect(page.getByRole('button', { name: 'Take it up again' })).toBeVisible();
  const home = await page.context().newPage();
  await home.goto('/');
  await expect(home.locator('open-plan')).toBeEmpty();
  await page.getByRole('button', { name: 'Take it up again' }).click();
  await expect(home.getByRole('link', { name: 'Go on with the plan' })).toBeVisible();
});

test('says so where it is gone', async ({ page }) => {
  await page.goto('/plan/#plan-0000-0000');
  await expect(page.locator('plan-desk')).toContainText('no longer in the logbook');
});

const KILLS = Number(process.env['KILL_PLANS'] ?? 36);

test(
  'loses nothing and doubles nothing when its tab is killed in mid-step',
  { tag: '@release' },
  async ({ browser }) => {
    test.setTimeout(KILLS * 15_000);
    for (let round = 0; round < KILLS; round++) {
      const context = await browser.newContext();
      await killed(context, round);
      await context.close();
    }
  },
);

/** A plan whose tab goes so many milliseconds after the press; what the next tab finds is whole. */
async function killed(context: BrowserContext, round: number): Promise<void> {
  const page = await context.newPage();
  await planned(page);
  await page.getByRole('button', { name: 'Keep this plan' }).click();
  await expect(page).toHaveURL(/#plan-/);
  const address = page.url();
  const before = await entriesIn(page);
  const session = await context.newCDPSession(page);
  await page.evaluate(
    ([wait]) => {
      const button = [...document.querySelectorAll<HTMLElement>('.step-mark button')][0]!;
      button.click();
      // Busy, so that nothing else of the page runs until it is gone.
      const until = performance.now() + wait!;
      void Promise.resolve().then(() => {
        while (performance.now() < until);
      });
    },
    [Math.floor(round / 3) % 12],
  );
  if (round % 3 === 0) await page.reload();
  else if (round % 3 === 1) await page.close();
  else {
    // A page that is gone answers nothing any more, to this either.
    const gone = page.waitForEvent('crash');
    void session.send('Page.crash').catch(() => undefined);
    await gone;
  }
  await page.close().catch(() => undefined);
  const next = await context.newPage();
  await next.goto(address);
  await expect(next.locator('plan-desk')).toHaveAttribute('data-ready', '');
  await expect(next.locator('.step')).toHaveCount(3);
  const after = await entriesIn(next);
  expect(after.additions).toBe(after.done);
  expect([before.done, before.done + 1]).toContain(after.done);
  expect(await next.locator('.step-ticked').count()).toBe(after.done - before.done);
  await next.close();
}

test('comes along in the logbook’s file, with what is done, to another device', async ({ page, browser }) => {
  await planned(page);
  await marks(page).first().click();
  await expect(page.locator('.step-ticked')).toHaveCount(1);
  await openLog(page);
  const file = await saved(page, 'Save everything');
  const other = await (await browser.newContext({ serviceWorkers: 'block', locale: 'en-GB' })).newPage();
  await openLog(other);
  await bringIn(other, file);
  await expect(other.locator('.now .open-plan')).toContainText('one step of it done');
  await other.goto('/');
  await other.getByRole('link', { name: 'Go on with the plan' }).click();
  await expect(other.locator('.step-ticked')).toHaveCount(1);
  // And goes on from there.
  await marks(other).first().click();
  await expect(other.locator('.step-ticked')).toHaveCount(2);
  expect(await entriesIn(other)).toMatchObject({ done: 2, plans: 1 });
  await other.context().close();
});
