/** What the built site sends: bytes and requests a type of page, and the reader. */
import { readdirSync } from 'node:fs';
import { chromium } from 'playwright';
import { presentChromium } from '../../browser.mjs';
import { BUDGETS } from '../../built/budgets.ts';
import { bytesSent, fileOf, PAGES, requestsOf } from '../../built/files.ts';
import { startServer } from '../../pages/static-server.ts';
import { figure, type Section, type Table, verdict } from './section.ts';

/** As in the budget of the reader. */
const MAX_READER_KB = 50;
const LOOK_AT = ['/', '/read/', '/plan/', '/learn/'];
/** The read page fetches the reader as soon as it rests, the service worker when a page has rested for four seconds. */
const WATCH_MILLIS = 14_000;

export async function siteSection(): Promise<Section> {
  return { tables: [pagesTable(), readerTable(), await whenTable()], ratios: [] };
}

function kB(paths: readonly string[]): number {
  return paths.reduce((sum, path) => sum + bytesSent(path), 0) / 1000;
}

const isScript = (path: string) => path.endsWith('.js');

function pagesTable(): Table {
  const rows = BUDGETS.map(({ pages, totalKB, scriptKB, requests }) => {
    const ofType = PAGES.filter((page) => BUDGETS.find((budget) => budget.pages.test(page))?.pages === pages);
    const asked = ofType.map(requestsOf);
    const most = (of: (paths: readonly string[]) => number) => Math.max(...asked.map(of));
    const [total, script, count] = [
      most(kB),
      most((paths) => kB(paths.filter(isScript))),
      most((paths) => paths.length),
    ];
    const isMet = total <= totalKB && script <= scriptKB && count <= requests;
    return [
      ofType.length === 1 ? ofType[0]! : `${ofType[0]} and ${ofType.length - 1} more`,
      `${total.toFixed(1)}`,
      `${script.toFixed(1)}`,
      `${count}`,
      `${totalKB} kB, ${scriptKB} kB, ${requests}`,
      isMet ? 'met' : '**not met**',
    ];
  });
  return {
    title: 'Pages',
    about:
      'A first load before anything is touched, text packed with gzip as a static host sends it. Of pages of one ' +
      'type the largest of each figure; wanted is the budget of `test/built`.',
    head: ['page', 'kB', 'kB of script', 'requests', 'wanted', 'is'],
    rows,
  };
}

function readerTable(): Table {
  const files = readdirSync(fileOf('/_astro')).filter((name) => /^worker-.*\.js$/.test(name));
  const size = kB(files.map((name) => `/_astro/${name}`));
  return {
    title: 'Reader',
    about: 'The worker’s script, packed with gzip; fetched once and kept.',
    head: ['what', 'kB', 'wanted', 'is'],
    rows: [['the reader', size.toFixed(0), ...verdict(size, MAX_READER_KB, 'kB')]],
  };
}

async function whenTable(): Promise<Table> {
  const executablePath = presentChromium() as string | null;
  if (!executablePath) throw new Error('Chromium isn’t installed: set CHROMIUM_PATH');
  const server = await startServer({ isPacked: true });
  const browser = await chromium.launch({ executablePath, args: ['--no-sandbox'] });
  const rows: string[][] = [];
  try {
    for (const path of LOOK_AT) {
      const context = await browser.newContext();
      const asked: number[] = [];
      let loaded = Infinity;
      // The context hears of what the service worker asks for as well.
      context.on('request', (request) => request.url().includes('/worker-') && asked.push(performance.now()));
      const page = await context.newPage();
      await page.goto(server.origin + path, { waitUntil: 'load' });
      loaded = performance.now();
      await page.waitForTimeout(WATCH_MILLIS);
      await context.close();
      const first = Math.min(...asked);
      rows.push([
        path,
        asked.length === 0
          ? `not in ${WATCH_MILLIS / 1000} s`
          : first < loaded
            ? 'before'
            : `${figure((first - loaded) / 1000)} s after`,
      ]);
    }
  } finally {
    await browser.close();
    await server.stop();
  }
  return {
    title: 'When the reader is asked for',
    about: `A first visit without a touch, watched for ${WATCH_MILLIS / 1000} s; against the moment the page had loaded.`,
    head: ['page', 'reader'],
    rows,
  };
}
