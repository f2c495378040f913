// `npm run audits [-- [ROUNDS] [PATH...]]`: Lighthouse over the built pages, medians. Ends with 1 below what is wanted.
import { presentChromium } from '../../browser.mjs';
import { startServer } from '../../pages/static-server.ts';
import { audit, type Audited, CATEGORIES, type Category } from './lighthouse.ts';

/** One page of each type. */
const PAGES = [
  ...['/', '/read/', '/plan/', '/log/', '/log/report/', '/learn/', '/learn/ph/', '/learn/colour-vision/'],
  ...['/scales/', '/settings/', '/card/'],
];
/** Where a visitor comes in, works, and reads: nothing may be lost there. */
const SPOTLESS = ['/', '/plan/', '/learn/ph/'];
/** Under the scores of the other pages the figures of one run and the next differ by a point or two. */
const MIN_PERFORMANCE = 98;

const [first, ...rest] = process.argv.slice(2);
const hasRounds = first !== undefined && /^\d+$/.test(first);
const rounds = hasRounds ? Number(first) : 3;
const asked = hasRounds ? rest : process.argv.slice(2);
const chromiumPath = presentChromium();
if (!chromiumPath) throw new Error('Chromium isn’t installed: set CHROMIUM_PATH');

const server = await startServer({ isPacked: true });
const short: string[] = [];
try {
  console.log(
    '| page | performance | accessibility | best practices | SEO | first paint | largest | blocked | shift |',
  );
  console.log('| --- | --- | --- | --- | --- | --- | --- | --- | --- |');
  for (const path of asked.length > 0 ? asked : PAGES) {
    const runs: Audited[] = [];
    for (let round = 0; round < rounds; round++) runs.push(await audit(server.origin + path, chromiumPath));
    const score = (name: Category) => median(runs.map(({ scores }) => scores[name]));
    const figure = (name: keyof Audited['figures']) => median(runs.map(({ figures }) => figures[name]));
    const millis = (name: keyof Audited['figures']) => `${figure(name).toFixed(0)} ms`;
    const times = [millis('paint'), millis('largest'), millis('blocking'), figure('shift').toFixed(3)];
    console.log(`| ${['`' + path + '`', ...CATEGORIES.map(score), ...times].join(' | ')} |`);
    const isShort = CATEGORIES.some((name) => score(name) < wanted(path, name));
    if (isShort) short.push(`${path}: ${[...new Set(runs.flatMap(({ failed }) => failed))].join(', ')}`);
  }
} finally {
  await server.stop();
}
for (const line of short) console.log(`below what is wanted: ${line}`);
process.exitCode = short.length === 0 ? 0 : 1;

function wanted(path: string, name: Category): number {
  return name === 'performance' && !SPOTLESS.includes(path) ? MIN_PERFORMANCE : 100;
}

function median(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? NaN;
}
