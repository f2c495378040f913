/** The dip timer by a clock that the test moves. Practice strip of five pads: dip 2 s, photo 30 to 75 s after it. */
import { expect, type Page, test } from '@playwright/test';
import { barriersOn } from './accessible.ts';
import { expectSoundLayout } from './layout/layout.ts';
import { stored } from './logbook.ts';
import { openDesk, ORDINARY, sheet } from './reading.ts';

const timer = (page: Page) => page.locator('dip-timer');
const word = (page: Page) => timer(page).locator('.timer-word');
const left = (page: Page) => timer(page).locator('.timer-left strong');

async function openTimer(page: Page): Promise<void> {
  await page.clock.install({ time: new Date('2026-06-12T10:00:00Z') });
  await page.addInitScript(() => {
    const heard: string[] = [];
    Object.assign(window, { heard });
    navigator.vibrate = (pattern) => heard.push(`vibrates ${String(pattern)}`) > 0;
    const start = OscillatorNode.prototype.start;
    OscillatorNode.prototype.start = function (this: OscillatorNode, ...args) {
      heard.push(`sounds ${this.frequency.value}`);
      start.apply(this, args);
    };
  });
  await openDesk(page);
  // The logbook is open: half an hour in one step would look as if the browser gave no answer.
  await expect(page.locator('read-desk')).toHaveAttribute('data-scales', /\d/);
  // From here on only the test moves it.
  await page.clock.pauseAt(new Date('2026-06-12T10:30:00Z'));
  await page.selectOption('#scale', 'practice-five');
}

const heard = (page: Page) => page.evaluate(() => (window as unknown as { heard: string[] }).heard);

test('runs through dip, lift, wait, photo and past', async ({ page }) => {
  await openTimer(page);
  await expect(timer(page)).toContainText('2 s in the water, then the photo 30 to 75 s after it has come out.');
  await page.getByRole('button', { name: 'Start as the strip goes in' }).click();
  await expect(word(page)).toHaveText('Dip');
  await expect(left(page)).toHaveText('2 s');
  await page.clock.runFor(2000);
  await expect(word(page)).toHaveText('Out, and onto the card');
  await page.clock.runFor(6000);
  await expect(word(page)).toHaveText('Wait');
  await expect(left(page)).toHaveText('24 s');
  await expect(timer(page).locator('.timer-steps .now')).toHaveText('wait');
  await expect(timer(page).locator('.timer-steps .done')).toHaveText(['dip done', 'lift done']);
  await page.clock.runFor(23_800);
  await expect(left(page)).toHaveText('1 s');
  await page.clock.runFor(200);
  await expect(word(page)).toHaveText('Take the photo');
  await expect(left(page)).toHaveText('45 s');
  await page.clock.runFor(46_000);
  await expect(word(page)).toHaveText('The window is past');
  await expect(left(page)).toHaveText('1 s');
  await page.getByRole('button', { name: 'Put the timer back' }).click();
  await expect(page.getByRole('button', { name: 'Start as the strip goes in' })).toBeFocused();
});

test('the bar shrinks within a step and is full again at the next', async ({ page }) => {
  await openTimer(page);
  await page.getByRole('button', { name: 'It has just come out' }).click();
  await expect(word(page)).toHaveText('Out, and onto the card');
  const share = () =>
    timer(page)
      .locator('.timer-bar-left')
      .evaluate((bar) => parseFloat((bar as HTMLElement).style.width));
  await page.clock.runFor(6000);
  expect(await share()).toBeGreaterThan(95);
  await page.clock.runFor(12_000);
  expect(Math.abs((await share()) - 50)).toBeLessThan(2);
  await page.clock.runFor(12_000);
  expect(await share()).toBeGreaterThan(95);
});

test('says each step once, not every second', async ({ page }) => {
  await openTimer(page);
  await page.evaluate(() => {
    const spoken: string[] = [];
    Object.assign(window, { spoken });
    const region = document.querySelector('dip-timer [role=status]')!;
    new MutationObserver(() => spoken.push(region.textContent)).observe(region, { childList: true });
  });
  await page.getByRole('button', { name: 'Start as the strip goes in' }).press('Enter');
  await expect(page.getByRole('button', { name: 'Stop the timer' })).toBeFocused();
  for (let i = 0; i < 90; i++) await page.clock.runFor(1000);
  const spoken = await page.evaluate(() => (window as unknown as { spoken: string[] }).spoken);
  expect(spoken.map((text) => text.split('.')[0])).toEqual([
    'Dip',
    'Out, and onto the card',
    'Wait',
    'Take the photo',
    'The window is past',
  ]);
  await expect(page.getByRole('timer')).toHaveAttribute('aria-live', 'off');
});

test('a tab that slept wakes at the right step', async ({ page }) => {
  await openTimer(page);
  await page.getByRole('button', { name: 'Start as the strip goes in' }).click();
  // No timer of the page runs in between.
  await page.clock.fastForward(40_000);
  await expect(word(page)).toHaveText('Take the photo');
  await expect(left(page)).toHaveText('37 s');
  await page.clock.fastForward(3_600_000);
  await expect(word(page)).toHaveText('The window is past');
});

test('a page that was put away comes back to the same dip', async ({ page }) => {
  await openTimer(page);
  await page.getByRole('button', { name: 'Start as the strip goes in' }).click();
  await page.clock.runFor(12_000);
  await page.reload();
  await expect(word(page)).toHaveText('Wait');
  await expect(left(page)).toHaveText('20 s');
});

test('sounds and vibrates at the steps that ask for a hand, and not where the settings say no', async ({ page }) => {
  await openTimer(page);
  await page.getByRole('button', { name: 'Start as the strip goes in' }).click();
  await expect.poll(() => heard(page)).toContain('sounds 660');
  await page.clock.runFor(80_000);
  expect(await heard(page)).toEqual(
    expect.arrayContaining(['vibrates 120', 'vibrates 180,90,180', 'vibrates 400', 'sounds 330']),
  );
  await page.evaluate(() => localStorage.setItem('dipwise:sound', 'off'));
  await page.getByRole('button', { name: 'Put the timer back' }).click();
  await page.evaluate(() => (window as unknown as { heard: string[] }).heard.splice(0));
  await page.getByRole('button', { name: 'Start as the strip goes in' }).click();
  await page.clock.runFor(80_000);
  await expect(word(page)).toHaveText('The window is past');
  expect(await heard(page)).toEqual([]);
});

test('every step of a running dip is accessible, in light and dark, and holds in every width and face', async ({
  page,
}) => {
  test.slow();
  await page.emulateMedia({ reducedMotion: 'reduce' });
  const now = Date.now();
  await openDesk(page);
  // The checker needs timers that run: only what time it is stands still, and each step is put in place.
  await page.clock.setFixedTime(now);
  for (const [seconds, says] of [
    [-60, 'Dip'],
    [1, 'Out, and onto the card'],
    [8, 'Wait'],
    [32, 'Take the photo'],
    [90, 'The window is past'],
  ] as const) {
    await page.evaluate(
      (endsAt) => {
        localStorage.setItem('dipwise:scale', 'practice-five');
        sessionStorage.setItem('dipwise:dip', JSON.stringify({ endsAt, isRead: false }));
      },
      now - seconds * 1000,
    );
    await page.reload();
    await expect(word(page)).toHaveText(says);
    expect(await barriersOn(page, 'dip-timer'), says).toEqual([]);
    await expectSoundLayout(page, { within: 'dip-timer' });
    // Where motion is unwelcome nothing glides.
    const glide = await timer(page)
      .locator('.timer-bar-left')
      .evaluate((bar) => getComputedStyle(bar).transitionDuration);
    expect(parseFloat(glide)).toBeLessThan(0.001);
  }
});

/** Gives the page a photo as the camera app would: the file carries the time it was taken. */
async function photograph(page: Page, secondsAgo = 0): Promise<void> {
  await page.selectOption('#scale', ORDINARY.scale);
  const [url] = await page
    .locator('button.sample')
    .evaluateAll((all) => all.map((button) => (button as HTMLElement).dataset['photo']!));
  await page.evaluate(
    async ([photo, ago]) => {
      const blob = await (await fetch(photo!)).blob();
      const transfer = new DataTransfer();
      transfer.items.add(new File([blob], 'photo.jpg', { type: 'image/jpeg', lastModified: Date.now() - ago! * 1000 }));
      document.body.dispatchEvent(new DragEvent('drop', { dataTransfer: transfer, bubbles: true, cancelable: true }));
    },
    [url, secondsAgo] as [string, number],
  );
  await expect(sheet(page)).toBeVisible();
}

// The strip of the ordinary photo: dip 1 s, photo 20 to 45 s after it.
test('a photo inside the window carries its time to the logbook, unmarked', async ({ page }) => {
  await openTimer(page);
  await page.getByRole('button', { name: 'It has just come out' }).click();
  await page.clock.runFor(42_000);
  await photograph(page, 5);
  await expect(page.getByLabel('Seconds from dip to photo')).toHaveValue('37');
  await expect(sheet(page)).not.toContainText('window');
  await expect(sheet(page).locator('.timing')).toHaveCount(0);
  await expect(timer(page).locator('.timer-todo')).toContainText('Your photo has been read');
  await page.getByRole('button', { name: 'Keep in the logbook' }).click();
  await expect(sheet(page)).toContainText('Kept in the logbook');
  expect((await stored(page)).entries[0]).toMatchObject({ sinceDipSeconds: 37, warnings: [] });
});

test('outside the window the sheet says that colours drift and marks every value', async ({ page }) => {
  await openTimer(page);
  await page.getByRole('button', { name: 'It has just come out' }).click();
  await page.clock.runFor(60_000);
  await photograph(page);
  await expect(sheet(page)).toContainText('after the reading window had closed: colours drift');
  await expect(sheet(page).locator('.timing')).toHaveText([
    'read too late',
    'read too late',
    'read too late',
    'read too late',
  ]);
  await page.clock.resume();
  expect(await barriersOn(page, '.reading-sheet')).toEqual([]);
  // The person knows better: what they type counts.
  const field = page.getByLabel('Seconds from dip to photo');
  await field.fill('10');
  await field.press('Tab');
  await expect(sheet(page).locator('.timing').first()).toHaveText('read too early');
  await field.fill('30');
  await field.press('Tab');
  await expect(sheet(page).locator('.timing')).toHaveCount(0);
  await field.fill('50');
  await field.press('Tab');
  await page.getByRole('button', { name: 'Keep in the logbook' }).click();
  await expect(sheet(page)).toContainText('Kept in the logbook');
  expect((await stored(page)).entries[0]).toMatchObject({ sinceDipSeconds: 50, warnings: ['read-late'] });
});

test('a photo older than the dip, or without a timer, has no known time', async ({ page }) => {
  await openTimer(page);
  await photograph(page);
  await expect(page.getByLabel('Seconds from dip to photo')).toHaveValue('');
  await page.getByRole('button', { name: 'It has just come out' }).click();
  await page.clock.runFor(30_000);
  await photograph(page, 300);
  await expect(page.getByLabel('Seconds from dip to photo')).toHaveValue('');
  await page.getByRole('button', { name: 'Keep in the logbook' }).click();
  await expect(sheet(page)).toContainText('Kept in the logbook');
  expect((await stored(page)).entries[0]).toMatchObject({ sinceDipSeconds: null, warnings: [] });
});
