/** Photo to values on the built read page. */
import { type Browser, chromium, type Page } from 'playwright';
import { readFile } from 'node:fs/promises';
import { basename } from 'node:path';
import { presentChromium } from '../../../browser.mjs';
import { hearWorkers, type PageFile, type PageStage, readInPage } from '../../../browsers/in-page.ts';
import { startServer } from '../../../pages/static-server.ts';
import { decodeInPage, lengths, photoToValues } from '../../speed/photo-to-values.ts';
import { median, spreadOf } from '../section.ts';
import { type Measured, overRuns } from './measured.ts';
import { MemoryWatch } from './memory.ts';
import type { SizedPhoto } from './photos.ts';

/** Rounds that don't count: the browser compiles what it meets often. */
const WARMING = 6;
/** Each in a browser of its own. */
const MEMORY_ROUNDS = 3;
/** As short as a visit to the phone's photos is, ms. */
const LOOKING = 4000;
/** Until a fresh page's memory is at rest, ms. */
const REST = 1500;

export interface BrowserBench {
  measure(photo: SizedPhoto, rounds: number): Promise<Measured>;
  close(): Promise<void>;
}

export async function startBrowserBench(): Promise<BrowserBench> {
  const executablePath = presentChromium() as string | null;
  if (!executablePath) throw new Error('Chromium isn’t installed: set CHROMIUM_PATH');
  const launch = () => chromium.launch({ executablePath, args: ['--no-sandbox'] });
  const server = await startServer({ isPacked: true });
  const browser = await launch();
  return {
    measure: async (photo, rounds) => {
      const file = await pageFile(photo);
      const warmPage = await openReadPage(browser, server.origin);
      const { decode, values, stages, ratios } = await photoToValues(warmPage, file, rounds, WARMING);
      const colds: { values: number; stages: PageStage[] }[] = [];
      const prepared: { values: number; stages: PageStage[] }[] = [];
      // The floor of the same minutes.
      const decodes: number[] = [];
      for (let round = 0; round < rounds; round++) {
        const before = await warmPage.evaluate(decodeInPage, file);
        colds.push(await readFirst(browser, server.origin, file, false));
        prepared.push(await readFirst(browser, server.origin, file, true));
        decodes.push((before + (await warmPage.evaluate(decodeInPage, file))) / 2);
      }
      await warmPage.context().close();
      const memory: Memory[] = [];
      for (let round = 0; round < MEMORY_ROUNDS; round++) memory.push(await memoryOf(launch, server.origin, photo));
      const coldRuns = colds.map((one) => one.stages);
      const preparedRuns = prepared.map((one) => one.stages);
      return {
        photo,
        decode,
        warm: values,
        cold: median(colds.map((one) => one.values)),
        prepared: median(prepared.map((one) => one.values)),
        times: {
          warm: spreadOf(ratios),
          cold: spreadOf(colds.map((one, i) => one.values / decodes[i]!)),
          prepared: spreadOf(prepared.map((one, i) => one.values / decodes[i]!)),
        },
        beforeMB: median(memory.map(({ beforeMB }) => beforeMB)),
        peakMB: median(memory.map(({ peakMB }) => peakMB)),
        stages: stages.map(({ stage, millis }) => ({
          stage,
          warm: millis,
          cold: overRuns(coldRuns, stage, (one) => one.millis),
          prepared: overRuns(preparedRuns, stage, (one) => one.millis),
          overMB: overRuns(
            memory.map((one) => one.stages),
            stage,
            (one) => one.overMB,
          ),
        })),
      };
    },
    close: async () => {
      await browser.close();
      await server.stop();
    },
  };
}

async function pageFile({ path, scale }: SizedPhoto): Promise<PageFile> {
  return { name: basename(path), type: 'image/jpeg', base64: await readFile(path, 'base64'), scale };
}

/**
 * Fresh: nothing is kept from another page, and no service worker fetches beside it.
 * @param doesRest as pages do; else the reader isn't there before it is asked
 */
async function openReadPage(browser: Browser, origin: string, doesRest = true): Promise<Page> {
  const page = await (await browser.newContext({ serviceWorkers: 'block' })).newPage();
  await page.addInitScript(noteStages);
  if (!doesRest) await page.addInitScript(() => (window.requestIdleCallback = () => 0));
  await page.goto(`${origin}/read/`);
  await page.locator('read-desk[data-ready]').waitFor({ state: 'attached' });
  return page;
}

/** @param isPrepared somebody looked for the photo for a while, and the reader got ready meanwhile */
async function readFirst(browser: Browser, origin: string, file: PageFile, isPrepared: boolean) {
  const page = await openReadPage(browser, origin);
  await page.evaluate(hearWorkers);
  if (isPrepared) {
    await page.locator('#photo').dispatchEvent('click');
    await page.waitForTimeout(LOOKING);
  }
  const answer = await page.evaluate(readInPage, file);
  await page.context().close();
  if (answer.outcome !== 'read') throw new Error(`the photo was ${answer.outcome}: ${answer.sentence}`);
  return { values: answer.valuesMillis, stages: lengths(answer) };
}

interface Memory {
  readonly beforeMB: number;
  readonly peakMB: number;
  readonly stages: readonly { readonly stage: string; readonly overMB: number }[];
}

/** A cold first reading, the file handed over from the disk as a person does. */
async function memoryOf(launch: () => Promise<Browser>, origin: string, photo: SizedPhoto): Promise<Memory> {
  const browser = await launch();
  try {
    // What the reader takes is part of it.
    const page = await openReadPage(browser, origin, false);
    await page.locator('#scale').evaluate((select: HTMLSelectElement, id) => (select.value = id), photo.scale);
    await page.waitForTimeout(REST);
    const watch = await MemoryWatch.of(browser);
    if (!watch) return { beforeMB: NaN, peakMB: NaN, stages: [] };
    const beforeMB = (await watch.look())?.megabytes ?? NaN;
    const handedOver = Date.now();
    watch.start();
    await page.locator('#photo').setInputFiles(photo.path);
    await page.locator('.result .reading-sheet').waitFor();
    await watch.stop();
    const begun = await page.evaluate(() => (window as unknown as { stagesBegun: StageBegun[] }).stagesBegun);
    const starts = [{ stage: 'open', at: handedOver }, ...begun];
    const most = (from: number, to: number) =>
      Math.max(...watch.samples.filter(({ at }) => at >= from && at < to).map(({ megabytes }) => megabytes));
    return {
      beforeMB,
      peakMB: most(handedOver, Infinity),
      stages: starts.map(({ stage, at }, i) => ({
        stage,
        overMB: most(at, starts[i + 1]?.at ?? Infinity) - beforeMB,
      })),
    };
  } finally {
    await browser.close();
  }
}

interface StageBegun {
  readonly stage: string;
  /** ms since 1970. */
  readonly at: number;
}

/** Runs in the page before its scripts: what the page's worker says of its stages, with the time. */
function noteStages(): void {
  const page = window as unknown as { Worker: typeof Worker; stagesBegun: StageBegun[] };
  const PlainWorker = page.Worker;
  page.stagesBegun = [];
  page.Worker = class extends PlainWorker {
    constructor(url: string | URL, options?: WorkerOptions) {
      super(url, options);
      this.addEventListener('message', ({ data }: MessageEvent<{ kind: string; stage?: string }>) => {
        const stage = data.kind === 'done' ? 'sheet' : data.stage;
        if (stage) page.stagesBegun.push({ stage, at: Date.now() });
      });
    }
  };
}
