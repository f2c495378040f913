/** Browsers out of the system's packages, where this is a Debian and installing is allowed. */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { NotHere } from './driven.ts';

let updated = false;

/** Path of a program; installs the packages when it is missing. */
export function programFrom(name: string, packages: readonly string[]): string {
  const found = onPath(name);
  if (found) return found;
  if (process.platform !== 'linux' || process.getuid?.() !== 0 || !onPath('apt-get')) {
    throw new NotHere(`${name} isn't installed (Debian: apt-get install ${packages.join(' ')})`);
  }
  if (!updated) apt('update');
  updated = true;
  apt('install', '-y', '--no-install-recommends', ...packages);
  const installed = onPath(name);
  if (!installed) throw new NotHere(`${packages.join(', ')} could not be installed`);
  return installed;
}

function apt(...args: string[]): void {
  console.log(`  apt-get ${args.join(' ')}`);
  spawnSync('apt-get', args, {
    stdio: 'ignore',
    timeout: 300_000,
    env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
  });
}

function onPath(name: string): string | null {
  const folders = (process.env['PATH'] ?? '').split(delimiter);
  return folders.map((folder) => join(folder, name)).find((path) => existsSync(path)) ?? null;
}
