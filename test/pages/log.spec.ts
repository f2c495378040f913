import { expect, test } from '@playwright/test';
import { wcagContrast } from 'culori';
import ICAL from 'ical.js';
import { bringIn, jsonOf, openLog, saved, stored } from './logbook.ts';
import { season } from './season.ts';

const SEASON = season(40);

test('writes down an addition, a reading, the weather and a note, and keeps them', async ({ page }) => {
  await openLog(page);
  await expect(page.locator('.empty-log')).toBeVisible();
  const form = (name: string) => page.locator('.write details', { has: page.locator('summary', { hasText: name }) });
  await form('An addition').locator('summary').click();
  await page.selectOption('#w-product', 'hydrochloric-acid');
  await page.fill('#w-amount', '0,5');
  await page.selectOption('.write [name=unit]', 'L');
  await form('An addition').getByRole('button').click();
  await expect(page.locator('.log-entry.addition')).toContainText('0.5 L Hydrochloric (muriatic) acid');
  // 31.45 % at 1.156 g/mL is about 10 mol/L.
  await expect(page.locator('.log-entry.addition')).toContainText('5.0 mol of acid');

  await form('Values of a drop kit, a meter or another test').locator('summary').click();
  await page.fill('#w-ph', '7.4');
  await page.fill('#w-free-chlorine', '2.5');
  await form('Values of a drop kit, a meter or another test').getByRole('button').click();
  await expect(page.locator('.log-entry.reading')).toContainText('7.4');

  await form('The weather').locator('summary').click();
  await page.selectOption('#w-sky', 'storm');
  await page.fill('#w-rain', '12');
  await form('The weather').getByRole('button').click();
  await expect(page.locator('.log-entry.weather')).toContainText('Storm, 12 mm of rain.');

  await form('A note').locator('summary').click();
  await page.fill('#w-note-n', 'Backwashed the filter');
  await form('A note').getByRole('button').click();
  await expect(page.locator('.log-entry.note')).toContainText('Backwashed the filter');

  await page.reload();
  await expect(page.locator('.log-entry')).toHaveCount(4);
});

test('says what is missing instead of writing half an entry', async ({ page }) => {
  await openLog(page);
  for (const [name, said] of [
    ['An addition', 'what you added'],
    ['Values of a drop kit, a meter or another test', 'at least one value'],
    ['The weather', 'no weather'],
    ['A note', 'no note'],
  ] as const) {
    const form = page.locator('.write details', { has: page.locator('summary', { hasText: name }) });
    await form.locator('summary').click();
    await form.getByRole('button').click();
    await expect(form.locator('[role=status]')).toContainText(said);
  }
  await page.fill('#w-ph', 'sour');
  await page.locator('form[data-kind=reading] button').click();
  await expect(page.locator('form[data-kind=reading] [role=status]')).toContainText('can’t be right');
  // A slip of a year is asked back: an entry far away could never be found again.
  await page.fill('#w-note-n', 'Rinsed the filter');
  for (const slip of ['0026-07-01T10:00', '2099-07-01T10:00']) {
    await page.locator('form[data-kind=note] input[type=datetime-local]').fill(slip);
    await page.locator('form[data-kind=note] button').click();
    await expect(page.locator('form[data-kind=note] [role=status]')).toContainText('from 1990 to tomorrow');
  }
  expect((await stored(page)).entries).toEqual([]);
});

test('deletes with undo, and the bin gives back after a reload', async ({ page }) => {
  await openLog(page);
  await bringIn(page, await jsonOf(season(3)));
  const before = (await stored(page)).entries;
  await page.locator('.log-entry').first().getByRole('button', { name: 'Delete' }).click();
  await expect(page.locator('.list-said')).toContainText('deleted');
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(page.locator('.list-said')).toHaveText('It is back.');
  expect((await stored(page)).entries).toEqual(before);
  await page.locator('.log-entry').first().getByRole('button', { name: 'Delete' }).click();
  await expect(page.locator('.list-said')).toContainText('deleted');
  await page.reload();
  await page.locator('.bin summary').click();
  await page.getByRole('button', { name: 'Put back' }).click();
  await expect(page.locator('.list-said')).toHaveText('It is back.');
  expect((await stored(page)).entries).toEqual(before);
});

test('a pool with its entries is deleted and comes back as one', async ({ page }) => {
  await openLog(page);
  await bringIn(page, await jsonOf(season(5)));
  await page.getByRole('button', { name: 'Another pool' }).click();
  await page.fill('#pool-name', 'Plunge pool');
  await page.getByRole('button', { name: 'Keep it', exact: true }).click();
  await expect(page.locator('#pool option:checked')).toHaveText('Plunge pool');
  await page.selectOption('#pool', { label: 'Round pool, hillside garden' });
  await expect(page.locator('.log-entry').first()).toBeVisible();
  await page.getByRole('button', { name: 'Change it' }).click();
  await page.getByRole('button', { name: 'Delete this pool' }).click();
  await expect(page.locator('.list-said')).toContainText('The pool and its entries are deleted');
  await expect(page.locator('#pool option')).toHaveText(['Plunge pool']);
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(page.locator('#pool option')).toHaveText(['Plunge pool', 'Round pool, hillside garden']);
});

test('an entry dated years ahead takes nothing from what the real ones say', async ({ page }) => {
  const [real] = SEASON.entries;
  const time = '2041-06-01T08:00:00.000Z';
  const ahead = { ...real!, id: 'years-ahead', time };
  await openLog(page);
  await bringIn(page, await jsonOf({ ...SEASON, entries: [...SEASON.entries, ahead] }));
  await expect(page.locator('.trends')).toHaveAttribute('aria-label', /Free chlorine: 40 readings/);
  await expect(page.locator('.now')).toContainText(/uses up about \d\.\d/);
});

test('draws the season, says what changed and what it learnt, and puts the next test into a calendar', async ({
  page,
}) => {
  await openLog(page);
  await bringIn(page, await jsonOf(SEASON));
  await expect(page.locator('.trends')).toHaveAttribute('aria-label', /Free chlorine: 40 readings/);
  await expect(page.locator('.trend-table tbody tr').first()).toBeVisible();
  await expect(page.locator('.now')).toContainText('Since last time');
  await expect(page.locator('.now')).toContainText(/uses up about \d\.\d \(\d\.\d to \d\.\d\) mg\/L/);
  await expect(page.locator('.now')).toContainText(/hydrochloric acid \(31\.45 %\) a week/);
  const calendar = new ICAL.Component(ICAL.parse(await saved(page, 'Into my calendar')) as unknown[]);
  const event = new ICAL.Event(calendar.getFirstSubcomponent('vevent')!);
  expect(event.summary).toBe('Test the pool: Round pool, hillside garden');
  await page.selectOption('#trend-days', '0');
  await expect(page.locator('.trends')).toHaveAttribute('aria-label', /2 May 2026/);
});

test('the chart reads in greyscale: everything in it stands out from the paper by its lightness alone', async ({
  page,
}) => {
  await openLog(page);
  await bringIn(page, await jsonOf(SEASON));
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme });
    const parts = await page.locator('.trends').evaluate((chart) => {
      const paper = getComputedStyle(document.documentElement).backgroundColor;
      return ['.mark', '.course', '.whisker', '.target', '.addition', '.axis', '.title', '.tick', '.letter'].map(
        (part) => {
          const { stroke, fill, opacity } = getComputedStyle(chart.querySelector(part)!);
          const ink = ['.mark', '.title', '.tick', '.letter'].includes(part) ? fill : stroke;
          return [part, ink, paper, Number(opacity)] as const;
        },
      );
    });
    for (const [part, ink, paper, opacity] of parts) {
      expect(opacity, part).toBe(1);
      // 1.4.3 for letters, 1.4.11 for lines.
      const least = ['.title', '.tick', '.letter'].includes(part) ? 4.5 : 3;
      expect(wcagContrast(ink, paper), `${part}, ${colorScheme}`).toBeGreaterThanOrEqual(least);
    }
  }
});

test('a change in one tab shows in the other, and neither writes over the other', async ({ page, context }) => {
  await openLog(page);
  await bringIn(page, await jsonOf(season(2)));
  const other = await context.newPage();
  await openLog(other);
  await expect(other.locator('.log-entry')).toHaveCount(2);
  await page.locator('.log-entry').first().getByRole('button', { name: 'Delete' }).click();
  await expect(other.locator('.log-entry')).toHaveCount(1);
});

test('a half-typed note outlives a change of its entry in another tab, and is told where the entry is gone', async ({
  page,
  context,
}) => {
  await openLog(page);
  await bringIn(page, await jsonOf(season(2)));
  const other = await context.newPage();
  await openLog(other);
  const [mine, theirs] = [page, other].map((tab) => tab.locator('.log-entry').first());
  const note = (entry: typeof mine) => entry!.locator('.entry-tools textarea');
  for (const entry of [mine!, theirs!]) await entry.locator('.entry-tools summary').click();
  await note(mine).fill('Half a th');
  await note(theirs).fill('Written elsewhere');
  await theirs!.getByRole('button', { name: 'Keep the note' }).click();
  await expect(mine!.locator('p.note')).toHaveText('Written elsewhere');
  await expect(note(mine)).toBeVisible();
  await expect(note(mine)).toHaveValue('Half a th');
  await theirs!.getByRole('button', { name: /^Delete/ }).click();
  await expect(page.locator('.notices')).toContainText('Half a th');
});

test('prints the season on a few pages, without its buttons', async ({ page }) => {
  await openLog(page);
  await bringIn(page, await jsonOf(SEASON));
  await page.goto('/log/report/');
  await expect(page.locator('log-report')).toHaveAttribute('data-ready', '');
  await page.emulateMedia({ media: 'print' });
  await expect(page.locator('.report-choice')).toBeHidden();
  // Rows stay rows on paper, also where the screen is narrow.
  await page.setViewportSize({ width: 390, height: 844 });
  const row = page.locator('.report section').last().locator('tbody tr').first();
  expect(await row.evaluate((element) => getComputedStyle(element).display)).toBe('table-row');
  const pages = (await page.pdf({ format: 'A4' })).toString('latin1').match(/\/Type\s*\/Page[^s]/g)!.length;
  expect(pages).toBeLessThanOrEqual(3);
});

test('a log too long for the page to work through shows the same', async ({ page }) => {
  await openLog(page);
  await bringIn(page, await jsonOf(season(1600, 0.05)));
  await expect(page.locator('.now')).toContainText('By all readings together');
  await expect(page.locator('.now')).toContainText('Since last time');
  await expect(page.locator('.trend svg.trends')).toHaveAttribute('aria-label', /Free chlorine: 1,[0-9]+ readings/);
  await expect(page.locator('.log-entry').first()).toBeVisible();
});
