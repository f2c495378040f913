/** After the build: writes the service worker, so that the site works without a network. */
import { createHash } from 'node:crypto';
import { readFileSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { join, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { generateSW } from 'workbox-build';

/**
 * What no page needs to open: the engine with its worker, and the practice photos. Pages fetch them once they are idle,
 * the first in this list first. Every name holds a hash of the content.
 */
const REST = [/^_astro\/[^/]*\.wasm$/, /^_astro\/worker-[^/]*\.js$/, /^_astro\/[^/]*\.(jpg|png)$/];

export function offline() {
  return {
    name: 'offline',
    hooks: {
      'astro:build:done': async ({ dir, logger }) => {
        const { count, size, warnings } = await writeServiceWorker(fileURLToPath(dir));
        for (const warning of warnings) logger.warn(warning);
        logger.info(`${count} files kept on the first visit, ${Math.round(size / 1000)} kB`);
      },
    },
  };
}

/** @returns what workbox-build tells about the files it lists */
async function writeServiceWorker(dist) {
  const rest = restOf(dist);
  if (!rest.some(({ path }) => path.endsWith('.wasm'))) throw new Error('the build has no engine to keep');
  writeFileSync(join(dist, 'offline.json'), JSON.stringify({ rest }));
  const paths = JSON.stringify(rest.map(({ path }) => path));
  const part = `self.dipwiseRest = ${paths};\n${readFileSync(new URL('worker.js', import.meta.url), 'utf8')}`;
  const name = `sw-${createHash('sha256').update(part).digest('hex').slice(0, 12)}.js`;
  writeFileSync(join(dist, name), part);
  return generateSW({
    globDirectory: dist,
    globPatterns: ['**/*'],
    globIgnores: [...rest.map(({ path }) => path), 'sw*.js'],
    swDest: join(dist, 'sw.js'),
    importScripts: [name],
    inlineWorkboxRuntime: true,
    sourcemap: false,
    mode: 'production',
    // A new edition waits until the visitor says so; the first one takes over the page it came with.
    skipWaiting: false,
    clientsClaim: true,
    cleanupOutdatedCaches: true,
    dontCacheBustURLsMatching: /\/?_astro\//,
    ignoreURLParametersMatching: [/./],
    maximumFileSizeToCacheInBytes: 4_000_000,
  });
}

function restOf(dist) {
  const files = readdirSync(dist, { recursive: true }).map((file) => file.split(sep).join('/'));
  return REST.flatMap((pattern) => files.filter((file) => pattern.test(file)).sort()).map((path) => ({
    path,
    bytes: statSync(join(dist, path)).size,
  }));
}
