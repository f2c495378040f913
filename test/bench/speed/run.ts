// `npm run speed [-- ROUNDS]`: how fast the built site is. Ends with 1 beyond the limit.
import { chromium } from 'playwright';
import { readFileSync } from 'node:fs';
import { presentChromium } from '../../browser.mjs';
import { startServer } from '../../pages/static-server.ts';
import { spreadOf, spreadText } from '../all/section.ts';
import { photoToValues } from './photo-to-values.ts';

const PHOTO = 'poolside-12-megapixel.jpg';
/** Times the browser's own full decode. */
const MAX_RATIO = 2.5;

const rounds = Number(process.argv[2] ?? 15);
const executablePath = presentChromium();
if (!executablePath) throw new Error('Chromium isn’t installed: set CHROMIUM_PATH');
const server = await startServer();
const browser = await chromium.launch({ executablePath, args: ['--no-sandbox'] });
try {
  const page = await (await browser.newContext({ serviceWorkers: 'block' })).newPage();
  await page.goto(`${server.origin}/read/`);
  await page.locator('read-desk[data-ready]').waitFor({ state: 'attached' });
  const { decode, values, sheet, ratios } = await photoToValues(page, photoFile(), rounds);
  const ms = (millis: number) => `${millis.toFixed(0)} ms`;
  console.log(
    `${PHOTO}, medians of ${rounds}: decode ${ms(decode)}, photo to values ${ms(values)}, to sheet ${ms(sheet)}`,
  );
  const spread = spreadOf(ratios);
  console.log(`photo to values over decode, median: ${spreadText(spread)} (at most ${MAX_RATIO})`);
  process.exitCode = spread.median <= MAX_RATIO ? 0 : 1;
} finally {
  await browser.close();
  await server.stop();
}

function photoFile() {
  const { photos } = JSON.parse(readFileSync('sample-images/truth.json', 'utf8')) as {
    photos: { file: string; scale: string }[];
  };
  const { scale } = photos.find(({ file }) => file === PHOTO)!;
  return { name: PHOTO, type: 'image/jpeg', base64: readFileSync(`sample-images/${PHOTO}`, 'base64'), scale };
}
