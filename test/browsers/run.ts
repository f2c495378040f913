// `npm run browsers`: the same photos in Chromium, Firefox and WebKit give the same reading, on the built site.
import { readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import sharp from 'sharp';
import { ciede2000 } from '../../src/core/colour/difference.ts';
import { type PhotoFile, sameKind, typeOf } from '../core/photo/files.ts';
import { startServer } from '../pages/static-server.ts';
import { startChromium } from './chromium.ts';
import { type DrivenBrowser, NotHere } from './driven.ts';
import { startFirefox } from './firefox.ts';
import { type PageAnswer, type PageFile, hearWorkers, readInPage } from './in-page.ts';
import { startWebkit } from './webkit.ts';

const MAX_APART = 0.5;
/** Of the interval that the reading itself admits. */
const MAX_OFF = 0.05;
const PHOTOS = ['open-shade-terrace', 'kitchen-warm-lamp', 'held-upright', 'poolside-12-megapixel'];
/** Of the first photo. */
const KINDS = [
  'display-p3.jpg',
  'display-p3.png',
  'adobe-rgb.png',
  'lossless.webp',
  'eight-bit.avif',
  'sixteen-bit.png',
];
const PAGES = ['/', '/read/', '/plan/', '/card/', '/scales/', '/scales/teach/', '/log/', '/learn/', '/settings/'];
const START = { chromium: startChromium, firefox: startFirefox, webkit: startWebkit };

interface Photo extends PhotoFile {
  readonly scale: string;
}

const { values } = parseArgs({ options: { need: { type: 'string', default: 'chromium' } } });
const photos = await choosePhotos();
const answers = new Map<string, PageAnswer[]>();
const problems: string[] = [];
const server = await startServer();
try {
  for (const [id, start] of Object.entries(START)) await tryBrowser(id, start);
} finally {
  await server.stop();
}
compare();
for (const problem of problems) console.log(`PROBLEM: ${problem}`);
process.exit(problems.length > 0 ? 1 : 0);

async function tryBrowser(id: string, start: () => Promise<DrivenBrowser>): Promise<void> {
  let browser: DrivenBrowser;
  try {
    browser = await start();
  } catch (error) {
    const missing = `${id} left out: ${(error as Error).message}`;
    if (!(error instanceof NotHere) || values.need.split(',').includes(id)) problems.push(missing);
    else console.log(missing);
    return;
  }
  const deaf = browser.takeErrors() === null ? ' (its console can’t be heard)' : '';
  console.log(`${browser.name} ${browser.version}${deaf}`);
  try {
    for (const page of PAGES) {
      await browser.open(server.origin + page);
      for (const error of browser.takeErrors() ?? []) problems.push(`${browser.name}, ${page}: ${error}`);
    }
    answers.set(browser.name, await readAll(browser));
  } catch (error) {
    problems.push(`${browser.name}: ${String(error)}`);
  } finally {
    await browser.close();
  }
}

async function readAll(browser: DrivenBrowser): Promise<PageAnswer[]> {
  await browser.open(`${server.origin}/read/`);
  await browser.run(hearWorkers, undefined);
  const read: PageAnswer[] = [];
  for (const { name, type, bytes, scale } of photos) {
    const file: PageFile = { name, type, base64: bytes.toString('base64'), scale };
    const answer = await browser.run(readInPage, file);
    read.push(answer);
    const said = answer.pads.map(({ parameter, value }) => `${parameter} ${value?.toFixed(2) ?? '-'}`).join(', ');
    console.log(`  ${name.padEnd(26)} ${String(Math.round(answer.millis)).padStart(6)} ms  ${said || answer.sentence}`);
  }
  for (const error of browser.takeErrors() ?? []) problems.push(`${browser.name}, reading: ${error}`);
  return read;
}

/** Each photo in each browser against the first browser's reading of it. */
function compare(): void {
  const [first, ...others] = [...answers];
  if (!first) return;
  for (const [name, theirs] of others) {
    photos.forEach((photo, i) => {
      const [one, other] = [first[1][i]!, theirs[i]!];
      const same = one.outcome === other.outcome && one.pads.length === other.pads.length;
      const apart = same
        ? Math.max(0, ...one.pads.map(({ lab }, k) => ciede2000([...lab], [...other.pads[k]!.lab])))
        : Infinity;
      const off = Math.max(0, ...one.pads.map((pad, k) => shareOfInterval(pad, other.pads[k])));
      console.log(
        `${first[0]} / ${name}, ${photo.name}: ${apart.toFixed(3)} CIEDE2000, ${off.toFixed(3)} of the interval`,
      );
      if (!same) problems.push(`${photo.name}: ${first[0]} ${one.outcome}, ${name} ${other.outcome} ${other.sentence}`);
      else if (apart > MAX_APART) problems.push(`${photo.name}: ${first[0]} and ${name} differ by ${apart.toFixed(2)}`);
      else if (off > MAX_OFF)
        problems.push(`${photo.name}: values in ${first[0]} and ${name} differ by ${off.toFixed(2)}`);
    });
  }
}

function shareOfInterval(one: PageAnswer['pads'][0], other: PageAnswer['pads'][0] | undefined): number {
  if (one.value === null || one.low === null || one.high === null || typeof other?.value !== 'number') return 0;
  return Math.abs(one.value - other.value) / Math.max(1e-9, one.high - one.low);
}

async function choosePhotos(): Promise<Photo[]> {
  const { photos: truths } = JSON.parse(readFileSync('sample-images/truth.json', 'utf8')) as {
    photos: { file: string; scale: string }[];
  };
  const samples = PHOTOS.map((id): Photo => {
    const { file, scale } = truths.find((photo) => photo.file === `${id}.jpg`)!;
    return { name: file, type: typeOf(file), bytes: readFileSync(`sample-images/${file}`), scale };
  });
  const { bytes, scale } = samples[0]!;
  const picture = await sharp(bytes).resize(1600).png().toBuffer();
  const kinds = await Promise.all(KINDS.map(async (kind) => ({ ...(await sameKind(kind, picture)), scale })));
  return [...samples, ...kinds];
}
