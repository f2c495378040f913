// Checks each world against its own TypeScript lib, then the Astro files.
import { spawnSync } from 'node:child_process';

const worlds = ['src/core', 'src/words', 'src/vision', 'src/print', 'src/build', 'src/cli', 'test'];
const commands = [
  ...worlds.map((world) => ['tsc', '-p', world]),
  ['astro', 'check', '--noSync', '--minimumFailingSeverity', 'hint'],
];

for (const [tool, ...args] of commands) {
  const run = spawnSync(tool, args, { stdio: 'inherit', shell: process.platform === 'win32' });
  if (run.error) throw run.error;
  if (run.status !== 0) process.exit(run.status ?? 1);
}
