// Puts damaged and random files through the page's real decode path in Chromium, and through the command's decoder:
// `npm run damage -- [FILES] [FIRST_SEED]`. Ends with 1 when something crashed, hung or kept memory.
import { chromium, type Browser, type Page } from 'playwright';
import { readFileSync } from 'node:fs';
import { openPhoto } from '../../../src/cli/decode.ts';
import { presentChromium } from '../../browser.mjs';
import { hearWorkers, type PageAnswer, readInPage } from '../../browsers/in-page.ts';
import { startServer } from '../../pages/static-server.ts';
import { damagedFile, soundFiles } from './damage.ts';

const PHOTO = 'sample-images/open-shade-terrace.jpg';
const SCALE = 'practice-four';
const HANG_MILLIS = 10_000;
const MAX_GROWTH_MB = 2;
/** Resident memory wanders: the allocator keeps pages for later. */
const MAX_RESIDENT_GROWTH = 0.1;

interface Memory {
  /** JavaScript heap after garbage collection, MB. */
  readonly heap: number;
  readonly nodes: number;
  /** Resident memory of all of the browser's page processes, MB; NaN where the system doesn't tell. */
  readonly resident: number;
}

const files = Number(process.argv[2] ?? 10_000);
const firstSeed = Number(process.argv[3] ?? 1);
const sound = await soundFiles(PHOTO);
const problems = [...(await throughPage()), ...(await throughCommand())];
for (const problem of problems) console.log(`PROBLEM: ${problem}`);
process.exit(problems.length > 0 ? 1 : 0);

async function throughPage(): Promise<string[]> {
  const server = await startServer();
  const executablePath = presentChromium();
  if (!executablePath) throw new Error('Chromium isn’t installed: set CHROMIUM_PATH');
  const browser = await chromium.launch({ executablePath, args: ['--no-sandbox'] });
  const found: string[] = [];
  const counts = new Map<string, number>();
  const millis: number[] = [];
  const memory: Memory[] = [];
  try {
    const page = await openPage(browser, server.origin, found);
    for (let i = 0; i < files; i++) {
      const file = damagedFile(sound, firstSeed + i);
      const answer = await put(page, file).catch((error: unknown) => `crash: ${String(error)}`);
      if (typeof answer === 'string') {
        found.push(`seed ${firstSeed + i}: ${answer}`);
        break;
      }
      millis.push(answer.millis);
      count(counts, answer.sentence || answer.outcome);
      if (answer.outcome === 'silent' || answer.millis > HANG_MILLIS) found.push(`seed ${firstSeed + i}: hung`);
      if ((i + 1) % Math.max(1, Math.floor(files / 20)) === 0) {
        memory.push(await memoryOf(browser, page));
        console.log(`${i + 1} files, ${JSON.stringify(memory.at(-1))}`);
      }
    }
  } finally {
    await browser.close();
    await server.stop();
  }
  millis.sort((a, b) => a - b);
  console.log(
    `page: ${millis.length} files; ms: median ${at(millis, 0.5)}, 99 % ${at(millis, 0.99)}, most ${at(millis, 1)}`,
  );
  for (const [sentence, times] of [...counts].sort((a, b) => b[1] - a[1])) console.log(`  ${times}  ${sentence}`);
  return [...found, ...growth(memory)];
}

async function openPage(browser: Browser, origin: string, found: string[]): Promise<Page> {
  const page = await (await browser.newContext({ serviceWorkers: 'block' })).newPage();
  page.on('crash', () => found.push('the page crashed'));
  page.on('pageerror', (error) => found.push(`an error nobody caught: ${error.message}`));
  page.on('console', (message) => message.type() === 'error' && found.push(`console: ${message.text()}`));
  await page.goto(`${origin}/read/`);
  await page.locator('read-desk[data-ready]').waitFor({ state: 'attached' });
  return page;
}

async function put(page: Page, { name, type, bytes }: ReturnType<typeof damagedFile>): Promise<PageAnswer> {
  await page.evaluate(hearWorkers);
  return page.evaluate(readInPage, { name, type, base64: bytes.toString('base64'), scale: SCALE });
}

async function memoryOf(browser: Browser, page: Page): Promise<Memory> {
  const session = await page.context().newCDPSession(page);
  await session.send('HeapProfiler.collectGarbage');
  const { usedSize } = await session.send('Runtime.getHeapUsage');
  const { nodes } = await session.send('Memory.getDOMCounters');
  await session.detach();
  const whole = await browser.newBrowserCDPSession();
  const { processInfo } = await whole.send('SystemInfo.getProcessInfo');
  await whole.detach();
  const renderers = processInfo.filter(({ type }) => type === 'renderer').map(({ id }) => residentMb(id));
  return { heap: round(usedSize / 1e6), nodes, resident: round(renderers.reduce((sum, mb) => sum + mb, 0)) };
}

function residentMb(pid: number): number {
  try {
    return Number(/VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1]) / 1024;
  } catch {
    return NaN;
  }
}

/** The last quarter against the second: the first fills caches. */
function growth(memory: readonly Memory[]): string[] {
  if (memory.length < 8) return ['too few measurements of memory'];
  const quarter = memory.length >> 2;
  const over = (key: keyof Memory, from: number) => median(memory.slice(from, from + quarter).map((one) => one[key]));
  const heap = over('heap', memory.length - quarter) - over('heap', quarter);
  const resident = over('resident', memory.length - quarter) / over('resident', quarter) - 1;
  console.log(`  memory, last quarter against second: heap ${round(heap)} MB, resident ${round(100 * resident)} %`);
  return [
    ...(heap > MAX_GROWTH_MB ? [`the heap grew by ${round(heap)} MB`] : []),
    ...(resident > MAX_RESIDENT_GROWTH ? [`resident memory grew by ${round(100 * resident)} %`] : []),
  ];
}

async function throughCommand(): Promise<string[]> {
  const found: string[] = [];
  const counts = new Map<string, number>();
  const resident: number[] = [];
  let longest = 0;
  for (let i = 0; i < files; i++) {
    const started = performance.now();
    const opened = await openPhoto(damagedFile(sound, firstSeed + i).bytes);
    const millis = performance.now() - started;
    longest = Math.max(longest, millis);
    if (millis > HANG_MILLIS) found.push(`seed ${firstSeed + i}: the command hung`);
    count(counts, opened.ok ? 'opened' : opened.failure);
    if ((i + 1) % Math.max(1, Math.floor(files / 20)) === 0) resident.push(process.memoryUsage.rss() / 1e6);
  }
  console.log(
    `command: ${files} files; most ${Math.round(longest)} ms; resident MB: ${resident.map(Math.round).join(' ')}`,
  );
  console.log(`  ${[...counts].map(([code, times]) => `${code} ${times}`).join(', ')}`);
  return found;
}

function count(counts: Map<string, number>, key: string): void {
  counts.set(key, (counts.get(key) ?? 0) + 1);
}

function at(sorted: readonly number[], share: number): number {
  return Math.round(sorted[Math.floor(share * (sorted.length - 1))] ?? NaN);
}

function median(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[values.length >> 1] ?? NaN;
}

function round(value: number): number {
  return Math.round(value * 10) / 10;
}
