// Runs on a bare Node 20 or newer, before anything is installed.
import { spawnSync } from 'node:child_process';
import { existsSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = fileURLToPath(new URL('../../', import.meta.url));

/** How to start npm with arguments in the project's folder. */
export function npmCommand(...args) {
  const cli = process.env.npm_execpath;
  if (cli) return { command: process.execPath, args: [cli, ...args], options: { cwd: root } };
  return { command: 'npm', args, options: { cwd: root, shell: process.platform === 'win32' } };
}

/** Runs npm with arguments in the project's folder; gives its exit code. */
export function npm(...args) {
  const { command, args: all, options } = npmCommand(...args);
  const run = spawnSync(command, all, { ...options, stdio: 'inherit' });
  if (run.error) throw run.error;
  return run.status ?? 1;
}

/** Installs the packages when they are missing or older than the lock file; ends the process when that fails. */
export function ensureInstalled() {
  const [major] = process.versions.node.split('.').map(Number);
  if (major < 20) {
    console.error(`Dipwise needs Node 20 or newer; this is Node ${process.versions.node}. Get it from nodejs.org.`);
    process.exit(1);
  }
  const lock = join(root, 'package-lock.json');
  const installed = join(root, 'node_modules', '.package-lock.json');
  if (existsSync(installed) && statSync(installed).mtimeMs >= statSync(lock).mtimeMs) return;
  console.log('Installing packages (once)...');
  const status = npm('ci', '--no-audit', '--no-fund');
  if (status !== 0) {
    console.error(
      'The packages could not be installed: see the message above. A network to the npm registry is needed.',
    );
    process.exit(status);
  }
}
