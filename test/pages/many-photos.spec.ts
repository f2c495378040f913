/** Several photos at once: a row for each, looked at, kept one by one or together. */
import { expect, type Page, test } from '@playwright/test';
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { barriersOn } from './accessible.ts';
import { expectSoundLayout } from './layout/layout.ts';
import { openLog, stored } from './logbook.ts';
import { openDesk, ORDINARY, sheet } from './reading.ts';

const FILES = [ORDINARY.file, 'overcast-deck.jpg', 'refused/no-card.jpg'];
const PATHS = FILES.map((file) => `sample-images/${file}`);
const rows = (page: Page) => page.locator('.photo-row');
const inState = (page: Page, state: string) => page.locator(`.photo-row[data-state=${state}]`);

/** By the system's file dialogue, or dropped on the page. */
async function give(page: Page, how: 'choose' | 'drop', paths = PATHS): Promise<void> {
  await page.selectOption('#scale', ORDINARY.scale);
  if (how === 'choose') return page.setInputFiles('#photo', paths);
  const files = paths.map((path) => [path, readFileSync(path, 'base64')] as const);
  await page.evaluate((all) => {
    const transfer = new DataTransfer();
    for (const [name, base64] of all) {
      const bytes = Uint8Array.from(atob(base64), (character) => character.charCodeAt(0));
      transfer.items.add(new File([bytes], name.split('/').at(-1)!, { type: 'image/jpeg' }));
    }
    document.dispatchEvent(new DragEvent('drop', { bubbles: true, cancelable: true, dataTransfer: transfer }));
  }, files);
}

test('several chosen photos become rows, with the values of the command, and are kept one by one or together', async ({
  page,
}) => {
  const lines = execFileSync(process.execPath, ['src/cli/read.ts', '--scale', ORDINARY.scale, ...PATHS.slice(0, 2)], {
    encoding: 'utf8',
  });
  const command = lines
    .trimEnd()
    .split('\n')
    .map((line) => JSON.parse(line) as { pads: { parameter: string; value: number }[] });
  await openDesk(page);
  await give(page, 'choose');
  await expect(inState(page, 'read')).toHaveCount(2);
  await expect(inState(page, 'refused')).toContainText('No card was found');
  await expect(page.locator('.several-photos > [role=status]')).toContainText('2 readings aren’t in the logbook yet');
  for (const [i, { pads }] of command.entries()) {
    const shown = rows(page).nth(i).locator('.row-values > div', { hasText: /^pH/ }).locator('strong');
    const ph = pads.find(({ parameter }) => parameter === 'ph')!.value;
    expect(Math.abs(Number(await shown.textContent()) - ph)).toBeLessThanOrEqual(0.11);
  }
  expect(await barriersOn(page)).toEqual([]);

  // What is corrected on a row's sheet stays with the row while another's is looked at.
  await rows(page)
    .nth(0)
    .getByRole('button', { name: /^Open its sheet/ })
    .click();
  const ph = sheet(page).locator('.pad[data-parameter=ph]');
  await ph.locator('summary').click();
  await ph.getByRole('textbox').fill('7.15');
  await ph.getByRole('button', { name: 'Use this' }).click();
  await rows(page)
    .nth(1)
    .getByRole('button', { name: /^Open its sheet/ })
    .click();
  await expect(rows(page).nth(0)).toContainText('7.15');
  await sheet(page).getByRole('button', { name: 'Keep in the logbook' }).click();
  await expect(inState(page, 'kept')).toHaveCount(1);

  // A further photo is another row while one isn't kept.
  await page.setInputFiles('#photo', PATHS[1]!);
  await expect(inState(page, 'read')).toHaveCount(2);
  await page.getByRole('button', { name: 'Keep 2 readings in the logbook' }).click();
  await expect(inState(page, 'kept')).toHaveCount(3);
  const { entries, pictures } = await stored(page);
  expect(pictures).toHaveLength(3);
  expect(entries.filter(({ pictureId }) => pictureId)).toHaveLength(3);
  await openLog(page);
  await expect(page.locator('.log-entry', { hasText: '7.15' })).toHaveCount(1);
});

test('dropped photos of one strip become one reading, and what was joined can be parted again', async ({ page }) => {
  await openDesk(page);
  await give(page, 'drop', [PATHS[1]!, PATHS[1]!]);
  await expect(inState(page, 'read')).toHaveCount(2);
  await page.getByRole('button', { name: 'Make one reading of them' }).click();
  await expect(inState(page, 'joined')).toHaveCount(2);
  await expect(sheet(page)).toContainText('from 2 photos together');
  await sheet(page).getByRole('button', { name: 'Discard this reading' }).click();
  await expect(inState(page, 'read')).toHaveCount(2);
  await page.getByRole('button', { name: 'Make one reading of them' }).click();
  await sheet(page).getByRole('button', { name: 'Keep in the logbook' }).click();
  await expect(inState(page, 'kept')).toHaveCount(1);
  expect((await stored(page)).entries).toHaveLength(1);
});

test('reading can be stopped, and gone on with from a row', async ({ page }) => {
  await openDesk(page);
  await give(page, 'choose', Array<string>(4).fill(PATHS[0]!));
  await page.getByRole('button', { name: 'Stop reading' }).click();
  await expect(inState(page, 'waiting')).toHaveCount(0);
  const read = await inState(page, 'read').count();
  expect(read).toBeLessThan(4);
  await inState(page, 'left')
    .first()
    .getByRole('button', { name: /^Read it/ })
    .click();
  await expect(inState(page, 'read')).toHaveCount(read + 1);
  await page.getByRole('button', { name: 'Put these readings away' }).click();
  await expect(inState(page, 'left')).toHaveCount(4);
});

test('the rows lie well on every screen', { tag: '@release' }, async ({ page }) => {
  await openDesk(page);
  await give(page, 'choose');
  await expect(inState(page, 'read')).toHaveCount(2);
  await expectSoundLayout(page);
});
