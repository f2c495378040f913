// `npm test`: installs what is missing, then every check, ending at the first that fails.
import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { ensureInstalled, npmCommand } from '../src/cli/install.mjs';

ensureInstalled();

/** Of these each uses one processor: two rows, side by side. */
const SIDE_BY_SIDE = [
  [
    ['format', 'format:check'],
    ['lint', 'lint'],
  ],
  [
    ['build', 'build'],
    ['types', 'types'],
  ],
];

// Getting a browser is mostly waiting for it: that is done meanwhile.
const browser = getBrowser();
await Promise.all(SIDE_BY_SIDE.map((row) => inTurn(row, true)));
await inTurn([['unit tests', 'unit']]);
await browser;
await inTurn([
  ['pages in a browser', 'pages'],
  ['what has to be quick, by itself', 'paced'],
]);
console.log('\nEvery check passed.');

/** Runs checks one after another; what is to be kept apart from other output is printed at the end of its check. */
async function inTurn(checks, isApart = false) {
  for (const [name, script] of checks) {
    if (!isApart) console.log(`\n== ${name}`);
    const started = Date.now();
    const { status, output } = await run(script, isApart);
    if (isApart) console.log(`\n== ${name}\n${output}`);
    if (status !== 0) {
      console.error(`\nThe check "${name}" failed (npm run ${script}).`);
      process.exit(status);
    }
    console.log(`== ${name}: fine (${((Date.now() - started) / 1000).toFixed(0)} s)`);
  }
}

async function getBrowser() {
  const script = fileURLToPath(new URL('get-browser.mjs', import.meta.url));
  const { status, output } = await finished(spawn(process.execPath, [script], { stdio: ['ignore', 'pipe', 'pipe'] }));
  if (output) console.log(output.trimEnd());
  if (status !== 0) process.exit(status);
}

function run(script, isKept) {
  const { command, args, options } = npmCommand('run', '--silent', script);
  return finished(spawn(command, args, { ...options, stdio: isKept ? ['ignore', 'pipe', 'pipe'] : 'inherit' }));
}

function finished(child) {
  let output = '';
  for (const stream of [child.stdout, child.stderr]) stream?.on('data', (text) => (output += text));
  return new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('close', (code) => resolve({ status: code ?? 1, output }));
  });
}
