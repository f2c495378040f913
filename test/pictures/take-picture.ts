// `npm run picture`: reads a sample photo on the built site and photographs the sheet, for the README.
import { chromium } from 'playwright';
import { presentChromium, presentShell } from '../browser.mjs';
import { startServer } from '../pages/static-server.ts';

const PHOTO = 'sample-images/open-shade-terrace.jpg';
const SCALE = 'practice-four';
const PICTURE = 'test/pictures/reading-sheet.png';
/** Between what is shown and the picture's edge, in pixels of the page. */
const MARGIN = 16;

const executablePath = presentShell() ?? presentChromium() ?? undefined;
const browser = await chromium.launch({ ...(executablePath && { executablePath }), args: ['--no-sandbox'] });
const server = await startServer();
try {
  const viewport = { width: 1100, height: 3000 };
  const context = await browser.newContext({
    viewport,
    locale: 'en-GB',
    colorScheme: 'light',
    serviceWorkers: 'block',
  });
  const page = await context.newPage();
  await page.goto(`${server.origin}/read/`);
  await page.locator('read-desk[data-ready]').waitFor();
  await page.selectOption('#scale', SCALE);
  await page.setInputFiles('#photo', PHOTO);
  // From the sheet's heading to the sentence under its values, the card's picture beside them.
  const { x, y, width } = (await page.locator('.reading-sheet').boundingBox())!;
  const last = (await page.getByText('The hatched spans').boundingBox())!;
  const clip = { x: x - MARGIN, y, width: width + 2 * MARGIN, height: last.y + last.height + MARGIN - y };
  await page.screenshot({ path: PICTURE, clip, animations: 'disabled' });
  console.log(PICTURE);
} finally {
  await browser.close();
  await server.stop();
}
