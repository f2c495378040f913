// Checks each world against its own TypeScript lib, and the Astro files: two at a time, the longest first.
import { spawn } from 'node:child_process';

const AT_ONCE = 2;
const worlds = ['test', 'src/core', 'src/cli', 'src/vision', 'src/words', 'src/print', 'src/build'];
const commands = [
  ['astro', 'check', '--noSync', '--minimumFailingSeverity', 'hint'],
  ...worlds.map((world) => ['tsc', '-p', world]),
];

await Promise.all(
  Array.from({ length: AT_ONCE }, async () => {
    for (let command = commands.shift(); command; command = commands.shift()) await check(command);
  }),
);

/** What it says is printed at its end, so that two never mix. */
function check([tool, ...args]) {
  return new Promise((resolve, reject) => {
    const child = spawn(tool, args, { stdio: ['ignore', 'pipe', 'pipe'], shell: process.platform === 'win32' });
    let output = '';
    for (const stream of [child.stdout, child.stderr]) stream.on('data', (text) => (output += text));
    child.on('error', reject);
    child.on('close', (code) => {
      if (output.trim()) console.log(output.trimEnd());
      if (code !== 0) process.exitCode = 1;
      resolve();
    });
  });
}
