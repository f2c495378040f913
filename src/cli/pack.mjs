// Before `npm pack`: the commands as JavaScript, since Node strips no types from what is installed as a package.
import { spawnSync } from 'node:child_process';
import { chmodSync, cpSync, mkdirSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { root } from './install.mjs';

const OUT = join(root, '.commands');
/** What the commands read beside their code. */
const AS_IT_IS = ['content/scales'];

rmSync(OUT, { recursive: true, force: true });
const flags = ['--noEmit', 'false', '--rewriteRelativeImportExtensions', '--rootDir', 'src', '--outDir', OUT];
const compiled = run(createRequire(import.meta.url).resolve('typescript/bin/tsc'), '-p', 'src/cli', ...flags);
if (compiled !== 0) process.exit(compiled);
for (const path of AS_IT_IS) {
  mkdirSync(dirname(join(OUT, path)), { recursive: true });
  cpSync(join(root, 'src', path), join(OUT, path), { recursive: true });
}
chmodSync(join(OUT, 'cli', 'dipwise.js'), 0o755);

function run(...args) {
  return spawnSync(process.execPath, args, { cwd: root, stdio: ['ignore', 2, 2] }).status ?? 1;
}
