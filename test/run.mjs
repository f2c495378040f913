// `npm test`: installs what is missing, then every check of a change. `npm run release`: what else is looked at before a
// release, on the build that is there. Both go on after a check that fails, and end with one line of counts.
import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ensureInstalled, npmCommand, root } from '../src/cli/install.mjs';
import { addCounts, countsLine, pageTestCounts, unitTestCounts } from './counts.mjs';

ensureInstalled();

const started = Date.now();
const reports = mkdtempSync(join(tmpdir(), 'dipwise-test-'));
const unitReport = join(reports, 'unit.json');
const failed = [];
let counts = { passed: 0, failed: 0, skipped: 0 };

if (process.argv[2] === 'release') await release();
else await change();
rmSync(reports, { recursive: true });
console.log(failed.length ? `\nFailed: ${failed.join(', ')}.` : '\nEvery check passed.');
console.log(`${((Date.now() - started) / 1000).toFixed(0)} s`);
console.log(countsLine(counts));
process.exit(failed.length ? 1 : 0);

/** What `npm test` looks at. */
async function change() {
  // Getting a browser is mostly waiting for it: that is done meanwhile.
  const browser = getBrowser();
  // Of these each uses one processor: two rows, side by side.
  await Promise.all([
    check('format', 'format:check', { isApart: true }).then(() => check('lint', 'lint', { isApart: true })),
    check('build', 'build', { isApart: true }).then(() => check('types', 'types', { isApart: true })),
  ]);
  if (failed.includes('build')) return;
  await unitTests('unit tests');
  if (await browser) await pageTests('pages in a browser', 'pages');
}

/** Tests with the tag `release`, what is held to a time, and a site under a path of its host. */
async function release() {
  if (!existsSync(join(root, 'dist', 'index.html'))) await check('build', 'build');
  const env = { ONLY_RELEASE: 'yes' };
  await unitTests('unit tests of a release', env);
  if (!(await getBrowser())) return;
  await pageTests('pages of a release', 'pages', env);
  await pageTests('what has to be quick, by itself', 'paced');
  await pageTests('under a path of a host', 'base');
}

function unitTests(name, env = {}) {
  const args = ['--reporter=default', '--reporter=json', `--outputFile.json=${unitReport}`];
  if (env.ONLY_RELEASE) args.push('--tags-filter=release');
  // Before a release the tests of a change aren't left out: they were looked at before.
  const count = () => ({ ...unitTestCounts(unitReport), ...(env.ONLY_RELEASE && { skipped: 0 }) });
  return check(name, 'unit', { args, env, count });
}

function pageTests(name, script, { ...env } = {}) {
  const report = join(reports, `${script}.json`);
  env.PLAYWRIGHT_JSON_OUTPUT_FILE = report;
  return check(name, script, { args: ['--reporter=list,json'], env, count: () => pageTestCounts(report) });
}

/**
 * Runs one check. What is to be kept apart from other output is printed at its end. A check that isn't made of tests
 * counts where it fails.
 */
async function check(name, script, { args = [], env = {}, isApart = false, count } = {}) {
  if (!isApart) console.log(`\n== ${name}`);
  const began = Date.now();
  const { status, output } = await run(script, { args, env, isApart });
  if (isApart) console.log(`\n== ${name}\n${output.trimEnd()}`);
  const found = count?.() ?? { passed: 0, failed: 0, skipped: 0 };
  const isFine = status === 0 && found.failed === 0;
  counts = addCounts(counts, { ...found, failed: isFine ? 0 : Math.max(found.failed, 1) });
  if (isFine) console.log(`== ${name}: fine (${((Date.now() - began) / 1000).toFixed(0)} s)`);
  else {
    failed.push(name);
    console.error(`\nThe check "${name}" failed (npm run ${script}).`);
  }
}

/** @returns whether there is one */
async function getBrowser() {
  const script = fileURLToPath(new URL('get-browser.mjs', import.meta.url));
  const { status, output } = await finished(spawn(process.execPath, [script], { stdio: ['ignore', 'pipe', 'pipe'] }));
  if (output) console.log(output.trimEnd());
  if (status === 0) return true;
  failed.push('a browser');
  counts = addCounts(counts, { passed: 0, failed: 1, skipped: 0 });
  return false;
}

function run(script, { args, env, isApart }) {
  const {
    command,
    args: all,
    options,
  } = npmCommand('run', '--silent', script, ...(args.length ? ['--', ...args] : []));
  const stdio = isApart ? ['ignore', 'pipe', 'pipe'] : 'inherit';
  return finished(spawn(command, all, { ...options, env: { ...process.env, ...env }, stdio }));
}

function finished(child) {
  let output = '';
  for (const stream of [child.stdout, child.stderr]) stream?.on('data', (text) => (output += text));
  return new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('close', (code) => resolve({ status: code ?? 1, output }));
  });
}
