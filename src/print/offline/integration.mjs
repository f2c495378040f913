/** After the build: writes the service worker, so that the site works without a network. */
import { createHash } from 'node:crypto';
import { readFileSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { join, sep } from 'node:path';
import { fileURLToPath } from 'node:url';

/**
 * What no page needs to open: the reader's worker, and the practice photos. Pages fetch them once they are idle,
 * the first in this list first. Every name holds a hash of the content.
 */
const LATER = [
  [/^_astro\/worker-[^/]*\.js$/, 'reader'],
  [/^_astro\/[^/]*\.(jpg|png)$/, 'photo'],
];

export function offline() {
  return {
    name: 'offline',
    hooks: {
      'astro:build:done': ({ dir, logger }) => {
        const { files, bytes } = writeServiceWorker(fileURLToPath(dir));
        logger.info(`${files} files kept on the first visit, ${Math.round(bytes / 1000)} kB`);
      },
    },
  };
}

/** @returns how many files an edition can't be without, and their bytes */
export function writeServiceWorker(dist) {
  const files = listFiles(dist);
  if (!files.some(([, , , when]) => when === 'reader')) throw new Error('the build has no reader to keep');
  const list = JSON.stringify(files);
  const edition = createHash('sha256').update(list).digest('hex').slice(0, 12);
  const worker = readFileSync(new URL('worker.js', import.meta.url), 'utf8');
  // The list stands in the script itself, and both in one function, so that a script that was cut short doesn't run.
  const head = `self.dipwiseEdition = '${edition}';\nself.dipwiseFiles = ${list};\n`;
  writeFileSync(join(dist, 'sw.js'), `(() => {\n${head}${worker}})();\n`);
  const early = files.filter(([, , , when]) => when === 'early');
  return { files: early.length, bytes: early.reduce((sum, [, , bytes]) => sum + bytes, 0) };
}

/** Files that configure the host, which doesn't serve them. */
const FOR_THE_HOST = /(^|\/)\.|^_(?!astro\/)|^CNAME$/;

/** Every file that is served: [path, SHA-256 in base64, bytes, when it is fetched]. */
function listFiles(dist) {
  const order = ['early', 'reader', 'photo'];
  return readdirSync(dist, { recursive: true })
    .map((file) => file.split(sep).join('/'))
    .filter((path) => path !== 'sw.js' && !FOR_THE_HOST.test(path) && statSync(join(dist, path)).isFile())
    .sort()
    .map((path) => {
      const content = readFileSync(join(dist, path));
      const when = LATER.find(([pattern]) => pattern.test(path))?.[1] ?? 'early';
      return [path, createHash('sha256').update(content).digest('base64'), content.length, when];
    })
    .sort((a, b) => order.indexOf(a[3]) - order.indexOf(b[3]));
}
