// `npm test`: installs what is missing, then every check, stopping at the first that fails.
import { ensureInstalled, npm } from '../src/cli/install.mjs';

ensureInstalled();
const { ensureChromium } = await import('./browser.mjs');

const checks = [
  ['format', 'format:check'],
  ['lint', 'lint'],
  ['build', 'build'],
  ['types', 'types'],
  ['unit tests', 'unit'],
  ['pages in a browser', 'pages'],
];

for (const [name, script] of checks) {
  if (script === 'pages') process.env.CHROMIUM_PATH = ensureChromium();
  console.log(`\n== ${name}`);
  const started = Date.now();
  const status = npm('run', '--silent', script);
  if (status !== 0) {
    console.error(`\nThe check "${name}" failed (npm run ${script}).`);
    process.exit(status);
  }
  console.log(`== ${name}: fine (${((Date.now() - started) / 1000).toFixed(0)} s)`);
}
console.log('\nEvery check passed.');
