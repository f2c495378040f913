import { globSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { importedPath, importsOf, roomOf, SOURCE_FILES } from './imports.ts';

/** For each room: the rooms it may import from, and the packages. */
const MAY_IMPORT: Record<string, { rooms: string[]; packages: RegExp }> = {
  core: { rooms: ['core'], packages: /^(culori|zod)(\/|$)/ },
  // What is said, of what the core found: one folder, so that another language is another folder.
  words: { rooms: ['words', 'core'], packages: /^$/ },
  vision: { rooms: ['vision', 'core'], packages: /^virtual:/ },
  browser: { rooms: ['browser', 'core', 'vision/messages', 'vision/worker'], packages: /^(zod|idb)(\/|$)/ },
  // Practice scales and sample photos are data, not rooms.
  components: {
    rooms: [
      'components',
      'words',
      'browser',
      'core',
      'vision/messages',
      'vision/pixels',
      'content/scales',
      'sample-images',
    ],
    packages: /^(astro|minisearch$|d3-scale$|d3-shape$)/,
  },
  content: { rooms: ['components', 'words', 'core'], packages: /^$/ },
  layouts: { rooms: ['layouts', 'components', 'words', 'browser', 'core', 'styles'], packages: /^(astro|@typeface\/)/ },
  print: { rooms: ['print', 'words', 'core'], packages: /^(node:|pdfkit|fontkit|sharp)/ },
  pages: {
    rooms: ['pages', 'layouts', 'components', 'words', 'browser', 'core', 'print', 'content', 'styles'],
    packages: /^(node:|astro|sharp)/,
  },
  // Makes the typeface ready, in Node.
  build: { rooms: ['build'], packages: /^(node:|subset-font$)/ },
  cli: {
    rooms: ['cli', 'words', 'vision', 'core', 'print'],
    packages: /^(node:|sharp|sirv$|zod|tinyglobby$)/,
  },
};

function violations(file: string): string[] {
  const rule = MAY_IMPORT[roomOf(file)];
  if (!rule) return [];
  return importsOf(file).flatMap((specifier) => {
    const path = importedPath(file, specifier);
    if (path === null) return rule.packages.test(specifier) ? [] : [`${file} -> ${specifier}`];
    const target = path.replace(/^src\//, '');
    const allowed = rule.rooms.some((prefix) => target === prefix || new RegExp(`^${prefix}[/.]`).test(target));
    return allowed || target.startsWith('..') ? [] : [`${file} -> ${target}`];
  });
}

describe('the direction of imports', () => {
  it('looks at every room', () => {
    const rooms = new Set(SOURCE_FILES.map(roomOf));
    for (const room of [
      'core',
      'words',
      'vision',
      'browser',
      'components',
      'layouts',
      'pages',
      'print',
      'build',
      'cli',
    ]) {
      expect(rooms).toContain(room);
    }
  });

  it('never points back', () => {
    expect(SOURCE_FILES.flatMap(violations)).toEqual([]);
  });

  it('sees a violation when there is one', () => {
    expect(importsOf('src/core/colour/difference.ts')).toContain('culori/fn');
  });
});

describe('the rooms of the pages', () => {
  /** What pages share; every other folder of components belongs to one page. */
  const SHARED = new Set('camera drawings keep photo ribbon scale timer vision'.split(' '));
  const folderOf = (path: string) => (path.startsWith('src/components/') ? path.split('/').slice(2, -1)[0] : undefined);
  /** `file -> imported` where a page's room takes from another page's, or a shared one from a page's. */
  const borrowed = (file: string, specifiers: readonly string[]) =>
    specifiers.flatMap((specifier) => {
      const from = folderOf(file);
      const to = folderOf(importedPath(file, specifier) ?? '');
      return from && to && from !== to && !SHARED.has(to) ? [`${file} -> ${specifier}`] : [];
    });
  const files = SOURCE_FILES.filter((file) => file.startsWith('src/components/'));

  it('take from each other only what lies in a shared one', () => {
    expect(files.length).toBeGreaterThan(150);
    expect(files.flatMap((file) => borrowed(file, importsOf(file)))).toEqual([]);
  });

  it('would be found out', () => {
    expect(borrowed('src/components/plan/desk.ts', ['../log/summary.ts', '../keep/measures.ts', '../dom.ts'])).toEqual([
      'src/components/plan/desk.ts -> ../log/summary.ts',
    ]);
  });
});

describe('the top level', () => {
  it('holds only what the design names', () => {
    const allowed = new Set([
      'README.md',
      'DEVELOPERS.md',
      'CHANGELOG.md',
      'LICENSE',
      'package.json',
      'package-lock.json',
      'astro.config.mjs',
      'tsconfig.json',
      'src',
      'public',
      'test',
      'sample-images',
      'node_modules',
      'dist',
      'test-results',
    ]);
    expect(globSync('*').filter((entry) => !entry.startsWith('.') && !allowed.has(entry))).toEqual([]);
  });
});
