/** After the build: `licences.txt`, what of other people's is in the site and on what terms, found in what was built. */
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
/** Come as files of their own, not by way of a script's imports. */
const AS_FILES = ['@expo-google-fonts/source-serif-4', '@fontsource/source-serif-4'];
const IN_PACKAGE = /.*\/node_modules\/((?:@[^/]+\/)?[^/]+)\//;

const seen = new Set(AS_FILES);

/** For the pages' scripts and for the workers': remembers whose modules go in. */
export function seeLicences() {
  return {
    name: 'see-licences',
    apply: 'build',
    generateBundle(_options, bundle) {
      for (const chunk of Object.values(bundle)) {
        for (const id of Object.keys(chunk.modules ?? {})) {
          const name = IN_PACKAGE.exec(id.replaceAll('\\', '/'))?.[1];
          // A folder of a tool's own isn't a package.
          if (name && !name.startsWith('.')) seen.add(name);
        }
      }
    },
  };
}

/** Before the list of what is kept for use without a network is made. */
export function licences() {
  return {
    name: 'licences',
    hooks: {
      'astro:build:done': ({ dir }) => {
        const parts = [...seen].sort().map(partOf);
        const own = readFileSync(join(ROOT, 'LICENSE'), 'utf8').trim();
        const head = `Dipwise\n\n${own}\n\nIn it there is work of others, on these terms:\n`;
        writeFileSync(join(fileURLToPath(dir), 'licences.txt'), [head, ...parts].join(`\n${'-'.repeat(72)}\n\n`));
      },
    },
  };
}

function partOf(name) {
  const folder = join(ROOT, 'node_modules', name);
  const { version, license, homepage = '' } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
  const file = readdirSync(folder).find((one) => /^(licen[cs]e|copying)/i.test(one));
  if (!license && !file) throw new Error(`${name} goes into the build and says no licence`);
  const text = file && existsSync(join(folder, file)) ? readFileSync(join(folder, file), 'utf8').trim() : '';
  return `${name} ${version}: ${license ?? 'as follows'}\n${homepage}\n\n${text}\n`;
}
