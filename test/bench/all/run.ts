// `npm run bench [-- PART...] [--write]`: what ours takes, beside the floor and beside general-purpose libraries, in one
// run. A bench, not a test: it prints tables and no check depends on them. The build must be there for photo and site.
import { readFile, writeFile } from 'node:fs/promises';
import { parseArgs } from 'node:util';
import { describeMachine, loadNow } from './machine.ts';
import { putBetweenMarks, toMarkdown } from './markdown.ts';
import { drawRatios } from './picture.ts';
import type { Section } from './section.ts';

/** Each is loaded when it is asked for: the parts need different things to be there. */
const PARTS = {
  photo: async () => (await import('./photo/part.ts')).photoSection(),
  finders: async () => (await import('./finders/part.ts')).findersSection(),
  colour: async () => (await import('./colour.ts')).colourSection(),
  waters: async () => (await import('./waters.ts')).watersSection(),
  site: async () => (await import('./site.ts')).siteSection(),
} satisfies Record<string, () => Promise<Section>>;
type Part = keyof typeof PARTS;
const NAMES = Object.keys(PARTS) as Part[];

const RESULTS = 'test/bench/RESULTS.md';
const PICTURE = 'test/bench/bench.svg';

const { parts, write } = readArguments();
const machine = describeMachine();
console.log(`${machine}\n`);
const loads = [loadNow()];
const sections: Section[] = [];
for (const part of parts) {
  const started = performance.now();
  const section = await PARTS[part]();
  sections.push(section);
  for (const table of section.tables) console.log(toMarkdown(table));
  loads.push(loadNow());
  console.error(`${part}: ${((performance.now() - started) / 1000).toFixed(0)} s`);
}
const end = [
  ...sections.flatMap(({ atTheEnd }) => atTheEnd ?? []),
  `load ${loads.map((load) => load.toFixed(1)).join(', ')}`,
].join('; ');
if (write) await writeResults();
console.log(`${end}.`);

async function writeResults(): Promise<void> {
  const tables = sections.flatMap((section) => section.tables.map(toMarkdown));
  const text = [
    `${machine}.`,
    '![Bars of the ratios against 1, with a notch at what is wanted; the tables below say the same](bench.svg)',
    ...tables,
    `At the end: ${end} (part by part).`,
  ].join('\n\n');
  const ratios = sections.flatMap((section) => section.ratios);
  await writeFile(RESULTS, putBetweenMarks(await readFile(RESULTS, 'utf8'), text));
  await writeFile(PICTURE, drawRatios(ratios, machine));
}

function readArguments(): { parts: readonly Part[]; write: boolean } {
  try {
    const { values, positionals } = parseArgs({
      allowPositionals: true,
      options: { write: { type: 'boolean', default: false } },
    });
    const parts = positionals.map((name) => {
      const part = NAMES.find((one) => one === name);
      if (!part) throw new Error(`there is no part '${name}'`);
      return part;
    });
    if (values.write && parts.length > 0) throw new Error('--write takes the whole bench, so that one run is written');
    return { parts: parts.length > 0 ? parts : NAMES, write: values.write };
  } catch (error) {
    console.error(
      `${(error as Error).message}\nUsage: npm run bench [-- PART...] [--write]; parts: ${NAMES.join(', ')}`,
    );
    process.exit(2);
  }
}
