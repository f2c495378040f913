// Finds a Chromium for the page tests, or gets one; and the shell of it without a window, which is twice as quick.
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { chromium } from 'playwright';

const NAMES = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'chrome'];
const SHELLS = ['chromium-headless-shell', 'chrome-headless-shell'];
const FIXED = [
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
  'C:\\Program Files (x86)\\Google\\Chrome\\Application\\chrome.exe',
];

/** Path of a Chromium that is already here and starts, or null. */
export function presentChromium() {
  return firstThatStarts([process.env.CHROMIUM_PATH, chromium.executablePath(), ...onPath(NAMES), ...FIXED]);
}

/**
 * Path of a Chromium without a window: it starts no pages of its own beside the ones that are tested, but it has no
 * camera. Null where there is none, or where somebody chose the Chromium to use.
 */
export function presentShell() {
  return process.env.CHROMIUM_PATH ? null : firstThatStarts(onPath(SHELLS));
}

function onPath(names) {
  return (process.env.PATH ?? '').split(delimiter).flatMap((folder) => names.map((name) => join(folder, name)));
}

function firstThatStarts(paths) {
  return paths.find((path) => path && existsSync(path) && starts(path)) ?? null;
}

/** Path of a working Chromium: one already here, else Playwright's, else the system's package manager's. */
export function ensureChromium() {
  const present = presentChromium();
  if (present) return present;
  console.log('\nNo Chromium found; getting one for the page tests...');
  for (const [tool, ...args] of ways()) {
    console.log(`  trying: ${[tool, ...args].join(' ')}`);
    spawnSync(tool, args, {
      stdio: ['ignore', 'ignore', 'ignore'],
      timeout: 300_000,
      shell: process.platform === 'win32',
      env: { ...process.env, PLAYWRIGHT_DOWNLOAD_CONNECTION_TIMEOUT: '15000', DEBIAN_FRONTEND: 'noninteractive' },
    });
    const found = presentChromium();
    if (found) return found;
  }
  console.error(
    'The page tests need Chromium, and none could be installed.\n' +
      'Install Chromium or Chrome, or set CHROMIUM_PATH to one, and run `npm test` again.',
  );
  process.exit(1);
}

function starts(path) {
  if (process.platform === 'win32') return true;
  return spawnSync(path, ['--version'], { timeout: 30_000 }).status === 0;
}

function ways() {
  const asRoot = process.getuid?.() === 0 ? [] : ['sudo', '-n'];
  return [
    ['npx', 'playwright', 'install', 'chromium'],
    ...(process.platform === 'linux'
      ? [
          [...asRoot, 'apt-get', 'update'],
          [...asRoot, 'apt-get', 'install', '-y', 'chromium', 'chromium-headless-shell'],
          [...asRoot, 'apt-get', 'install', '-y', 'chromium'],
          [...asRoot, 'dnf', 'install', '-y', 'chromium'],
          [...asRoot, 'pacman', '-Sy', '--noconfirm', 'chromium'],
        ]
      : []),
    ...(process.platform === 'darwin' ? [['brew', 'install', '--cask', 'chromium']] : []),
  ];
}
