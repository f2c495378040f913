/** `npm run --silent card -- --out DIR [--mark XXX]`: writes both cards as PDF, SVG, PNG and JSON. */
import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import type { CardVariant } from '../core/card/geometry.ts';
import { isPrintMark, MIN_MARK, MAX_MARK, printMarkAt, printMarkName } from '../core/card/print-mark.ts';
import { cardJson } from '../print/card-json.ts';
import { cardPdf } from '../print/card-pdf.ts';
import { cardPng } from '../print/card-png.ts';
import { cardSvg } from '../print/card-svg.ts';
import { makeFolder } from './files.ts';
import { called, EXIT, print } from './output.ts';

const USAGE = `Usage: ${called('card')} --out DIR [--mark XXX]`;

const wanted = argumentsOf(process.argv.slice(2));
if (wanted === null) process.exitCode = EXIT.wrongUse;
else await writeCards(wanted);

interface Wanted {
  readonly out: string;
  readonly mark: number;
}

/** Null when the arguments can't be used; the reason has then been told. */
function argumentsOf(args: string[]): Wanted | null {
  try {
    const { values } = parseArgs({ args, options: { out: { type: 'string' }, mark: { type: 'string' } } });
    const mark = values.mark === undefined ? printMarkAt(Math.random()) : markOf(values.mark);
    if (values.out && mark !== null) return { out: values.out, mark };
    console.error(
      mark === null
        ? `A mark is three hexadecimal digits, ${printMarkName(MIN_MARK)} to ${printMarkName(MAX_MARK)}, not “${values.mark}”. ${USAGE}`
        : `Say where to write the card with --out. ${USAGE}`,
    );
  } catch (error) {
    console.error(`${error instanceof Error ? error.message : String(error)}. ${USAGE}`);
  }
  return null;
}

function markOf(name: string): number | null {
  const mark = /^[0-9a-f]{1,3}$/i.test(name) ? parseInt(name, 16) : 0;
  return isPrintMark(mark) ? mark : null;
}

async function writeCards({ out: folder, mark }: Wanted): Promise<void> {
  try {
    await makeFolder(folder);
    for await (const [name, content] of cardFiles(mark)) {
      const path = join(folder, name);
      await writeFile(path, content);
      await print(path);
    }
  } catch (error) {
    console.error(`Can't write to ${folder}: ${(error as Error).message}`);
    process.exitCode = EXIT.wrongUse;
  }
}

async function* cardFiles(mark: number): AsyncGenerator<[name: string, content: string | Uint8Array]> {
  for (const [variant, name] of [
    ['colour', 'card'],
    ['black', 'card-black'],
  ] as const satisfies [CardVariant, string][]) {
    yield [`${name}-a4.pdf`, await cardPdf(variant, 'a4', mark)];
    yield [`${name}-letter.pdf`, await cardPdf(variant, 'letter', mark)];
    yield [`${name}.svg`, cardSvg(variant, mark)];
    yield [`${name}.png`, await cardPng(variant, mark)];
    yield [`${name}.json`, `${JSON.stringify(cardJson(variant, mark), null, 2)}\n`];
  }
}
