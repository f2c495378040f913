/** `npm run --silent card -- --out DIR`: writes both cards as PDF, SVG, PNG and JSON. */
import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import type { CardVariant } from '../core/card/geometry.ts';
import { cardJson } from '../print/card-json.ts';
import { cardPdf } from '../print/card-pdf.ts';
import { cardPng } from '../print/card-png.ts';
import { cardSvg } from '../print/card-svg.ts';
import { makeFolder } from './files.ts';
import { EXIT, print } from './output.ts';

const USAGE = 'Usage: npm run --silent card -- --out DIR';

const out = outFolder(process.argv.slice(2));
if (out === null) process.exitCode = EXIT.wrongUse;
else await writeCards(out);

/** Null when the arguments can't be used; the reason has then been told. */
function outFolder(args: string[]): string | null {
  try {
    const { values } = parseArgs({ args, options: { out: { type: 'string' } } });
    if (values.out) return values.out;
    console.error(`Say where to write the card with --out. ${USAGE}`);
  } catch (error) {
    console.error(`${error instanceof Error ? error.message : String(error)}. ${USAGE}`);
  }
  return null;
}

async function writeCards(folder: string): Promise<void> {
  try {
    await makeFolder(folder);
    for await (const [name, content] of cardFiles()) {
      const path = join(folder, name);
      await writeFile(path, content);
      await print(path);
    }
  } catch (error) {
    console.error(`Can't write to ${folder}: ${(error as Error).message}`);
    process.exitCode = EXIT.wrongUse;
  }
}

async function* cardFiles(): AsyncGenerator<[name: string, content: string | Uint8Array]> {
  for (const [variant, name] of [
    ['colour', 'card'],
    ['black', 'card-black'],
  ] as const satisfies [CardVariant, string][]) {
    yield [`${name}-a4.pdf`, await cardPdf(variant, 'a4')];
    yield [`${name}-letter.pdf`, await cardPdf(variant, 'letter')];
    yield [`${name}.svg`, cardSvg(variant)];
    yield [`${name}.png`, await cardPng(variant)];
    yield [`${name}.json`, `${JSON.stringify(cardJson(variant), null, 2)}\n`];
  }
}
