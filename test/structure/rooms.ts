/** Counts the imports between rooms and draws them: who uses whom, from the pages down to the core. */
import { instance } from '@viz-js/viz';
import { globSync } from 'node:fs';
import { importedPath, importsOf, SOURCE_FILES } from './imports.ts';

/** The boxes, and what is in each. Practice scales and sample photos are data that only components fetch. */
const BOXES: Readonly<Record<string, { says: string; files: string }>> = {
  'src/pages': { says: 'one file for each address', files: 'src/pages/**/*.{astro,ts}' },
  'src/layouts': { says: 'what every page has', files: 'src/layouts/**/*.astro' },
  'src/components': { says: 'markup and small elements', files: 'src/components/**/*.{astro,ts}' },
  'src/styles': { says: 'paper, ink and type', files: 'src/styles/**/*.css' },
  'src/content/learn': { says: 'explainers', files: 'src/content/learn/**/*.mdx' },
  'src/content/scales': { says: 'practice scales', files: 'src/content/scales/**/*.json' },
  'src/browser': { says: 'camera, files, store', files: 'src/browser/**/*.ts' },
  'src/words': { says: 'every sentence', files: 'src/words/**/*.ts' },
  'src/vision': { says: 'finds and samples, in a worker', files: 'src/vision/**/*.ts' },
  'src/build': { says: 'makes the typeface small', files: 'src/build/**/*.{ts,mjs}' },
  'src/print': { says: 'the card, at build time', files: 'src/print/**/*.{ts,mjs,js}' },
  'src/cli': { says: 'the commands', files: 'src/cli/**/*.{ts,mjs}' },
  'src/core': { says: 'colour, readings, water', files: 'src/core/**/*.ts' },
  'sample-images': { says: 'simulated photos', files: 'sample-images/**/*.jpg' },
};

export interface Rooms {
  /** Box to the number of its files and the packages it imports. */
  readonly boxes: ReadonlyMap<string, { readonly files: number; readonly packages: readonly string[] }>;
  /** `from -> to` to the number of imports. */
  readonly arrows: ReadonlyMap<string, number>;
}

export function countRooms(): Rooms {
  const packages = new Map(Object.keys(BOXES).map((box) => [box, new Set<string>()]));
  const arrows = new Map<string, number>();
  for (const file of SOURCE_FILES) {
    const from = boxOf(file);
    for (const specifier of importsOf(file)) {
      const path = importedPath(file, specifier);
      const to = path === null ? from : boxOf(path);
      if (path === null) packages.get(from)!.add(packageOf(specifier));
      else if (to !== from) arrows.set(`${from} -> ${to}`, (arrows.get(`${from} -> ${to}`) ?? 0) + 1);
    }
  }
  const boxes = Object.entries(BOXES).map(([box, { files }]) => {
    const named = [...packages.get(box)!]
      .filter((name) => !/^(node|virtual|astro):|^astro$|^@typeface/.test(name))
      .sort();
    return [box, { files: globSync(files).length, packages: named }] as const;
  });
  return { boxes: new Map(boxes), arrows: new Map([...arrows].sort(([a], [b]) => (a < b ? -1 : 1))) };
}

/** @throws where a file lies in no box: a new room needs one */
function boxOf(path: string): string {
  const box = Object.keys(BOXES).find((name) => path === name || path.startsWith(`${name}/`));
  if (!box) throw new Error(`${path} lies in no box of test/structure/rooms.ts`);
  return box;
}

function packageOf(specifier: string): string {
  const [first, second] = specifier.split('/');
  return specifier.startsWith('@') ? `${first}/${second}` : first!;
}

const STYLE = `<style>
svg { --paper: #faf6ec; --ink: #2b2a27; --soft: #5f5443; --box: #fffdf6; }
@media (prefers-color-scheme: dark) { svg { --paper: #1c1915; --ink: #ece3d1; --soft: #bcaf98; --box: #2a251e; } }
.graph > polygon { fill: var(--paper); }
.node path { fill: var(--box); stroke: var(--ink); }
.node text { fill: var(--soft); }
.node text[font-weight] { fill: var(--ink); }
.edge path { stroke: var(--soft); }
.edge polygon { fill: var(--soft); stroke: var(--soft); }
</style>`;

/** The drawing as SVG, in light and in dark: boxes with their packages, and an arrow where one imports from another. */
export async function drawRooms({ boxes, arrows }: Rooms): Promise<string> {
  const nodes = [...boxes].map(([box, { packages }]) => {
    const lines = [BOXES[box]!.says, packages.join(', ')].filter(Boolean);
    const rows = lines.map((line) => `<BR/><FONT POINT-SIZE="11">${line}</FONT>`);
    return `"${box}" [label=<<B>${box}</B>${rows.join('')}>]`;
  });
  const edges = [...arrows.keys()].map((arrow) => {
    const [from, to] = arrow.split(' -> ');
    return `"${from}" -> "${to}"`;
  });
  const graph = `digraph {
    // Wide margins: the font that a reader has may be wider than the one that the layout reckons with.
    graph [rankdir=TB nodesep=0.2 ranksep=0.5 pad=0.25 bgcolor=white fontname="Times, serif"]
    node [shape=box style="rounded,filled" fillcolor=white fontname="Times, serif" fontsize=14 margin="0.32,0.1"]
    edge [arrowsize=0.7]
    ${[...nodes, ...edges].join('\n    ')}
  }`;
  const svg = (await instance()).renderString(graph, { format: 'svg' });
  const words = [...arrows.keys()].map((arrow) => arrow.replace(' -> ', ' to '));
  return `${svg
    // Without the drawing program's preamble, and its tips of node names and letters.
    .slice(svg.indexOf('<svg'))
    .replace(/<!--[^]*?-->\n?/g, '')
    .replace(/<title>[^<]*<\/title>\n?/g, '')
    .replace(
      /<svg ([^>]*)>/,
      `<svg role="img" aria-labelledby="t d" $1>\n<title id="t">The rooms of the code and their imports</title>\n<desc id="d">Imports from room to room. ${words.join('; ')}.</desc>\n${STYLE}`,
    )
    .trim()}\n`;
}
