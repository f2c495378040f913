/**
 * Pictures of every kind of page against those that were looked at and found good, small enough that letters blur and
 * layout shows. After a change that is meant: `npm run pages -- looks --update-snapshots`, and look at what has changed.
 */
import { expect, type Locator, type Page, test } from '@playwright/test';
import { bringIn, jsonOf, openLog } from './logbook.ts';
import { handedOn, openDesk, ORDINARY, readFrom, REFUSED, refusalOn, sheet } from './reading.ts';
import { season } from './season.ts';

/** Letters come out at a fourth of their size. */
test.use({ deviceScaleFactor: 0.25, contextOptions: { reducedMotion: 'reduce' } });

const KINDS = {
  home: '/',
  read: '/read/',
  plan: '/plan/',
  log: '/log/',
  parameter: '/learn/ph/',
  vision: '/learn/colour-vision/',
  scales: '/scales/',
};

/** The upper part of a page, CSS px: below, its parts come again. */
const HEIGHT = 1600;

interface Way {
  readonly name: string;
  readonly width: number;
  readonly media?: Parameters<Page['emulateMedia']>[0];
}

const WAYS: readonly Way[] = [
  { name: '390-dark', width: 390, media: { colorScheme: 'dark' } },
  { name: '768-forced', width: 768, media: { forcedColors: 'active' } },
  { name: '768-print', width: 768, media: { media: 'print' } },
  { name: '1280', width: 1280 },
];
/** A form, a text, pictures: print and forced colours change them alike on other pages. */
const IN_EVERY_WAY = ['plan', 'parameter', 'read'];
const NARROW_AND_WIDE = WAYS.filter(({ name }) => ['390-dark', '1280'].includes(name));

test.beforeEach(async ({ page }) => {
  // Forms begin with today.
  await page.clock.setFixedTime(new Date('2026-06-15T12:00:00'));
});

for (const [kind, path] of Object.entries(KINDS)) {
  test(`${kind} looks as it did`, async ({ page }) => {
    await page.goto(path, { waitUntil: 'networkidle' });
    const ways = IN_EVERY_WAY.includes(kind) ? WAYS : NARROW_AND_WIDE;
    for (const way of ways) await expectLook(page, kind, way);
  });
}

test('a reading, a refusal and a plan look as they did', async ({ page }) => {
  await openDesk(page);
  await readFrom(page, ORDINARY);
  await expect(sheet(page)).toBeVisible();
  const varying = [page.locator('dt:text-is("Time taken") + dd'), page.locator('.sheet-head')];
  for (const way of NARROW_AND_WIDE) await expectLook(page, 'sheet', way, { of: sheet(page), varying });
  await handedOn(page);
  const plan = page.locator('plan-desk');
  for (const way of NARROW_AND_WIDE) await expectLook(page, 'plan-full', way, { of: plan });
  await openDesk(page);
  await readFrom(page, REFUSED[0]!);
  for (const way of NARROW_AND_WIDE) await expectLook(page, 'refusal', way, { of: refusalOn(page) });
});

test('the report of a full logbook looks as it did', async ({ page }) => {
  await openLog(page);
  await bringIn(page, await jsonOf(season(12)));
  await page.goto('/log/report/');
  await expect(page.locator('.report h3').last()).toHaveText('Every reading');
  for (const way of NARROW_AND_WIDE) await expectLook(page, 'report-full', way, { of: page.locator('log-report') });
});

/** @param part.of what is looked at, the top of the page if left out */
async function expectLook(
  page: Page,
  kind: string,
  { name, width, media }: Way,
  { of, varying = [] }: { of?: Locator; varying?: Locator[] } = {},
): Promise<void> {
  await page.emulateMedia({ colorScheme: 'light', forcedColors: 'none', media: 'screen', ...media });
  await page.setViewportSize({ width, height: HEIGHT });
  const options = {
    scale: 'device',
    mask: varying,
    // Another edition of the browser draws edges a little differently; a block that moves is ten times this.
    threshold: 0.25,
    maxDiffPixelRatio: 0.02,
  } as const;
  if (of) await expect(of).toHaveScreenshot(`${kind}-${name}.png`, options);
  else await expect(page).toHaveScreenshot(`${kind}-${name}.png`, options);
}
