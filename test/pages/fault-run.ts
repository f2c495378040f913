/** A visitor who does what visitors do while things go wrong, and keeps a list of what the site said it had kept. */
import type { Browser, BrowserContext, Page } from '@playwright/test';
import { PAGES } from './built.ts';
import { randomFrom } from '../core/log/random.ts';
import { clearFault, FAULTS, installFaults } from './fault-kinds.ts';
import { stored } from './logbook.ts';
import { ORDINARY, readFrom, sheet } from './reading.ts';
import { startServer, type StaticServer } from './static-server.ts';
import { teachQuickly } from './teaching.ts';

/** Under a fault an act may fail; it must do so in time. */
const ACT_MILLIS = 25_000;
/** For several acts in a row, the longest of which is teaching. */
const STEP_MILLIS = 120_000;
const CLOSE_MILLIS = 10_000;
/** Pages with an element that says when it is ready. */
const DESKS: Readonly<Record<string, string>> = {
  '/read/': 'read-desk',
  '/log/': 'log-desk',
  '/settings/': 'settings-desk',
  '/scales/teach/': 'teach-desk',
};

export interface Place {
  readonly page: Page;
  readonly context: BrowserContext;
  readonly server: StaticServer;
  readonly random: () => number;
}

export class FaultRun {
  readonly #server: StaticServer;
  readonly #context: BrowserContext;
  readonly #random: () => number;
  #page!: Page;
  #number = 0;
  readonly #started = Date.now();
  #faults: string[] = [];
  /** What the site said it had kept, and what was under way when its tab was killed. */
  readonly #kept = new Set<string>();
  #readings = 0;
  #scales = 0;
  readonly #done = new Map<string, number>();
  readonly problems: string[] = [];

  private constructor(server: StaticServer, context: BrowserContext, random: () => number) {
    [this.#server, this.#context, this.#random] = [server, context, random];
  }

  static async start(browser: Browser, seed: number): Promise<FaultRun> {
    const server = await startServer();
    const context = await browser.newContext({ baseURL: server.origin, locale: 'en-GB', serviceWorkers: 'allow' });
    context.setDefaultTimeout(ACT_MILLIS);
    context.setDefaultNavigationTimeout(ACT_MILLIS);
    await installFaults(context);
    const run = new FaultRun(server, context, randomFrom(seed).uniform);
    await run.#freshTab();
    await run.#page.goto('/');
    return run;
  }

  /** Perhaps a fault, then an act, then perhaps all is well again. */
  async step(): Promise<void> {
    this.#number += 1;
    if (this.#random() < 0.4) await this.#fault();
    const [name, act] = this.#pick(this.#acts());
    const started = this.#faults.length === 0;
    const failure = await inTime(act()).then(
      () => null,
      (error: unknown) => error,
    );
    this.#log(`${name}${failure ? `: ${lineOf(failure)}` : ''}`);
    this.#count(failure ? `${name}, in vain` : name);
    // With nothing wrong, everything must work.
    if (failure && started) this.#problem(`${name} failed though nothing was wrong: ${String(failure).slice(0, 300)}`);
    if (failure || this.#page.isClosed()) await inTime(this.#freshTab());
    if (this.#random() < 0.5) await inTime(this.#heal());
  }

  #acts(): readonly (readonly [number, string, () => Promise<void>])[] {
    return [
      [10, 'note', () => this.#note(this.#page)],
      [4, 'note in two tabs', () => this.#twoTabs()],
      [4, 'tab killed while writing', () => this.#killedTab()],
      [3, 'note deleted and taken back', () => this.#deleteAndUndo()],
      [4, 'reading', () => this.#read()],
      [1, 'teaching', () => this.#teach()],
      [4, 'update', () => this.#update()],
      [2, 'check in settings', () => this.#check()],
      [10, 'visit', () => this.#visit(this.#one(PAGES))],
    ];
  }

  async #note(page: Page): Promise<void> {
    const text = `note ${this.#number}.${Math.floor(this.#random() * 1e6)}`;
    await this.#open(page, '/log/');
    await page.locator('.write summary', { hasText: 'A note' }).click();
    await page.fill('#w-note-n', text);
    await page.locator('form[data-kind=note] button').click();
    const said = page.locator('form[data-kind=note] [role=status]');
    await said.filter({ hasText: /./ }).waitFor();
    if (!(await said.textContent())?.includes('written down')) throw new Error('it said that it was not kept');
    // Kept on the device; a logbook for the time of the page says so itself.
    if (!(await page.locator('.notices').textContent())?.includes('until the page is closed')) this.#kept.add(text);
  }

  async #twoTabs(): Promise<void> {
    const other = await this.#context.newPage();
    try {
      const both = await Promise.allSettled([this.#note(this.#page), this.#note(other)]);
      if (both.every(({ status }) => status === 'rejected')) throw new Error('neither tab could write');
    } finally {
      await other.close();
    }
  }

  async #killedTab(): Promise<void> {
    const page = this.#page;
    const writing = this.#note(page).catch(() => undefined);
    await new Promise((resolve) => setTimeout(resolve, this.#random() * 1500));
    await close(page);
    await writing;
    await this.#freshTab();
  }

  async #deleteAndUndo(): Promise<void> {
    await this.#open(this.#page, '/log/');
    const entry = this.#page.locator('.log-entry.note').first();
    if ((await entry.count()) === 0) return;
    await entry.getByRole('button', { name: /^Delete/ }).click();
    await this.#page.getByRole('button', { name: 'Undo' }).click();
    await this.#page.locator('.list-said', { hasText: 'It is back' }).waitFor();
  }

  async #read(): Promise<void> {
    await this.#open(this.#page, '/read/');
    await readFrom(this.#page, ORDINARY);
    await sheet(this.#page).waitFor();
    await this.#page.getByRole('button', { name: 'Keep in the logbook' }).click();
    const kept = sheet(this.#page).filter({ hasText: 'Kept in the logbook' });
    await kept.waitFor();
    // A browser whose store is broken keeps it for the time of the page, and says so.
    if (!(await kept.textContent())?.includes('until the page is closed')) this.#readings += 1;
  }

  async #teach(): Promise<void> {
    await teachQuickly(this.#page, `Strip ${this.#number}`, /^The scale is/);
    // A browser whose store is broken keeps it for the time of the page, and says so.
    if (await this.#page.getByRole('heading', { name: 'The scale is kept' }).isVisible()) this.#scales += 1;
  }

  async #update(): Promise<void> {
    this.#server.newEdition();
    await this.#open(this.#page, '/');
    await this.#page.evaluate(async () => {
      await (await navigator.serviceWorker.getRegistration())?.update().catch(() => undefined);
    });
    const start = this.#page.getByRole('button', { name: 'Start it' });
    const isOffered = await start.waitFor({ timeout: 4000 }).then(
      () => true,
      () => false,
    );
    if (isOffered) await Promise.all([this.#page.waitForEvent('load'), start.click()]);
  }

  async #check(): Promise<void> {
    await this.#open(this.#page, '/settings/');
    await this.#page.getByRole('button', { name: 'Keep the whole site' }).click();
    await this.#page.locator('.stored-said', { hasText: /network/ }).waitFor();
  }

  async #visit(path: string): Promise<void> {
    await this.#open(this.#page, path);
  }

  async #open(page: Page, path: string): Promise<void> {
    await page.goto(path, { waitUntil: 'domcontentloaded' });
    await page.locator('h1').first().waitFor();
    const desk = DESKS[path];
    if (desk) await page.locator(`${desk}[data-ready]`).waitFor({ state: 'attached' });
  }

  async #fault(): Promise<void> {
    const [name, begin] = this.#pick(FAULTS.map(({ weight, name, begin }) => [weight, name, begin] as const));
    this.#faults.push(name);
    this.#count(`fault: ${name}`);
    // Storage and caches are the site's own: not those of an empty tab.
    if (this.#page.url() === 'about:blank') await this.#page.goto('/icon.svg').catch(() => undefined);
    await inTime(begin(this.#place())).catch((error: unknown) => this.#log(`${name} didn’t come: ${lineOf(error)}`));
  }

  async #heal(): Promise<void> {
    if (this.#faults.length === 0) return;
    this.#faults = [];
    await this.#freshTab();
    await clearFault(this.#place());
  }

  /** All is well again: is everything there, and does what is looked at work? */
  async inspect(paths: readonly string[] = [this.#one(PAGES), '/log/', '/read/']): Promise<void> {
    await inTime(this.#heal());
    await inTime(this.#freshTab());
    for (const path of paths) {
      await this.#open(this.#page, path).catch((error: unknown) => this.#problem(`${path}: ${String(error)}`));
    }
    await this.#open(this.#page, '/log/').catch(() => undefined);
    const { entries, pictures, scales } = await inTime(stored(this.#page));
    const notes = new Set(entries.map(({ note }) => note));
    for (const text of this.#kept) if (!notes.has(text)) this.#problem(`lost: ${text}`);
    if (pictures.length < this.#readings) this.#problem(`${this.#readings} readings, ${pictures.length} pictures`);
    if (scales < this.#scales) this.#problem(`${this.#scales} scales kept, ${scales} there`);
    const aside = await this.#page.locator('.notices', { hasText: 'can’t be read' }).count();
    if (aside > 0) this.#problem('a record is set aside');
  }

  async inspectAll(): Promise<void> {
    await this.inspect(PAGES);
    await this.#read().catch((error: unknown) => this.#problem(`the last reading: ${String(error)}`));
    await this.#check().catch((error: unknown) => this.#problem(`the last check: ${String(error)}`));
    // All of it once more, without a network.
    await this.#context.setOffline(true);
    for (const path of PAGES) {
      await this.#open(this.#page, path).catch((error: unknown) => this.#problem(`offline ${path}: ${String(error)}`));
    }
    await this.#read().catch((error: unknown) => this.#problem(`the reading offline: ${String(error)}`));
  }

  summary(): string {
    const done = [...this.#done].sort(([a], [b]) => (a < b ? -1 : 1)).map(([name, times]) => `  ${times} ${name}`);
    const kept = `${this.#kept.size} notes, ${this.#readings} readings, ${this.#scales} scales kept`;
    const minutes = (Date.now() - this.#started) / 60_000;
    return `${this.#number} steps in ${minutes.toFixed(1)} minutes: ${kept}; ${this.problems.length} problems\n${done.join('\n')}`;
  }

  async end(): Promise<void> {
    await this.#context.close();
    await this.#server.stop();
  }

  async #freshTab(): Promise<void> {
    const fresh = await this.#context.newPage();
    for (const page of this.#context.pages()) if (page !== fresh) await close(page);
    this.#page = fresh;
  }

  #place(): Place {
    return { page: this.#page, context: this.#context, server: this.#server, random: this.#random };
  }

  #problem(text: string): void {
    this.problems.push(`step ${this.#number}: ${text.slice(0, 400)}`);
    console.log(this.problems.at(-1));
  }

  /** With FAULT_LOG, each step on a line as it ends, under the faults of that time. */
  #log(text: string): void {
    if (!process.env['FAULT_LOG']) return;
    const seconds = Math.round((Date.now() - this.#started) / 1000);
    console.log(`${seconds} s, step ${this.#number} [${this.#faults.join(', ')}] ${text}`);
  }

  #count(name: string): void {
    this.#done.set(name, (this.#done.get(name) ?? 0) + 1);
  }

  #one<T>(items: readonly T[]): T {
    return items[Math.floor(this.#random() * items.length)]!;
  }

  #pick<T>(items: readonly (readonly [weight: number, name: string, what: T])[]): readonly [string, T] {
    let left = this.#random() * items.reduce((sum, [weight]) => sum + weight, 0);
    const [, name, what] = items.find(([weight]) => (left -= weight) < 0) ?? items.at(-1)!;
    return [name, what];
  }
}

/** A tab that is closed in the middle of a navigation may never answer; the run goes on without it. */
async function close(page: Page): Promise<void> {
  await Promise.race([page.close(), new Promise((resolve) => setTimeout(resolve, CLOSE_MILLIS))]);
}

function lineOf(error: unknown): string {
  return String(error).split('\n')[0]!;
}

/** @throws Error where the promise doesn't settle: a script in a page may wait for ever, and has no limit of its own */
async function inTime<T>(promise: Promise<T>): Promise<T> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const tooLong = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new Error('it never came to its end')), STEP_MILLIS);
  });
  try {
    return await Promise.race([promise, tooLong]);
  } finally {
    clearTimeout(timer);
  }
}
