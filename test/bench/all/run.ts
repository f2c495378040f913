// `npm run bench [-- PART...] [--write]`: what ours takes, beside the floor and beside general-purpose libraries. A bench,
// not a test: it prints tables and no check depends on them. The build must be there for photo and site. With --write each
// part's tables and pictures take the place of those before, so that parts can be run one after the other.
import { readFile, writeFile } from 'node:fs/promises';
import { parseArgs } from 'node:util';
import { describeMachine, loadNow } from './machine.ts';
import { putBetweenMarks, toMarkdown } from './markdown.ts';
import { type Part, PART_NAMES, PARTS } from './parts.ts';
import { drawRatios } from './picture.ts';
import type { Section } from './section.ts';

const FOLDER = 'test/bench';
const RESULTS = `${FOLDER}/RESULTS.md`;

const { parts, write } = readArguments();
const ends: string[] = [];
for (const part of parts) {
  const machine = describeMachine();
  console.log(`${part}: ${machine}\n`);
  const started = performance.now();
  const section = await PARTS[part]();
  for (const table of section.tables) console.log(toMarkdown(table));
  console.error(`${part}: ${((performance.now() - started) / 1000).toFixed(0)} s`);
  const end = [...(section.atTheEnd ? [section.atTheEnd] : []), `load ${loadNow().toFixed(1)}`].join('; ');
  ends.push(end);
  if (write) await writePart(part, section, machine, end);
}
console.log(`${ends.join('; ')}.`);

async function writePart(part: Part, section: Section, machine: string, end: string): Promise<void> {
  const pictures = [
    ...(section.ratios.length > 0
      ? [
          {
            name: part,
            svg: drawRatios(section.ratios, machine),
            says: 'Bars of the ratios against 1, with a notch at what is wanted; the tables below say the same',
          },
        ]
      : []),
    ...(section.pictures ?? []),
  ];
  const text = [
    `${machine}.`,
    ...pictures.map(({ name, says }) => `![${says}](${name}.svg)`),
    ...section.tables.map(toMarkdown),
    `At the end: ${end}.`,
  ].join('\n\n');
  for (const { name, svg } of pictures) await writeFile(`${FOLDER}/${name}.svg`, svg);
  await writeFile(RESULTS, putBetweenMarks(await readFile(RESULTS, 'utf8'), part, text));
}

function readArguments(): { parts: readonly Part[]; write: boolean } {
  try {
    const { values, positionals } = parseArgs({
      allowPositionals: true,
      options: { write: { type: 'boolean', default: false } },
    });
    const parts = positionals.map((name) => {
      const part = PART_NAMES.find((one) => one === name);
      if (!part) throw new Error(`there is no part '${name}'`);
      return part;
    });
    return { parts: parts.length > 0 ? parts : PART_NAMES, write: values.write };
  } catch (error) {
    console.error(
      `${(error as Error).message}\nUsage: npm run bench [-- PART...] [--write]; parts: ${PART_NAMES.join(', ')}`,
    );
    process.exit(2);
  }
}
