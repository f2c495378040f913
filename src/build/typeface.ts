/** The site's typeface, Source Serif 4, as small as what pages show and visitors type allows. */
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import subsetFont from 'subset-font';

const require = createRequire(import.meta.url);

/** The faces by the name of their file: what the CSS asks for as `@typeface/regular.woff2`. */
export const FACES = { regular: '400Regular', italic: '400Regular_Italic', semibold: '600SemiBold' } as const;

/**
 * Latin with the accents of European names, and the signs of units, formulas and punctuation. It has no superscript
 * plus or minus and no letters as subscripts, for the typeface has none: those are marked up (`<sup>`, `<sub>`).
 */
export const CHARACTERS = [
  ...between(0x20, 0x7e),
  ...between(0xa0, 0x17f),
  ...'ȘșȚț',
  ...'–—‘’‚“”„†•…′″‹›€™',
  ...'−±×÷√∞≈≠≤≥∆Ωπμ←↑→↓✓',
  ...'⁰¹²³⁴⁵⁶⁷⁸⁹ⁿ₀₁₂₃₄₅₆₇₈₉⅓⅔',
  // Thin, hair and narrow spaces.
  '\u2009\u200a\u202f',
].join('');

/** Kerning, and accents put together. Its figures are lining and of one width without a feature. */
const FEATURES = ['kern', 'ccmp', 'mark', 'locl'];

/** Copyright and licence (name table, OpenType 1.9): the licence asks that they go with the font. */
const COPYRIGHT_AND_LICENCE = [0, 13, 14];

/** The face as it was published, all its characters. */
export function wholeFace(face: keyof typeof FACES): string {
  return require.resolve(`@expo-google-fonts/source-serif-4/${FACES[face]}/SourceSerif4_${FACES[face]}.ttf`);
}

/** The folder of the faces as WOFF2, made when they aren't there yet. */
export async function typefaceFolder(): Promise<string> {
  // Another way of cutting, or another edition of what is cut, makes other files.
  const sources = [fileURLToPath(import.meta.url), require.resolve('@expo-google-fonts/source-serif-4/package.json')];
  const hash = createHash('sha256');
  for (const source of sources) hash.update(readFileSync(source));
  const name = hash.digest('hex').slice(0, 12);
  const folder = fileURLToPath(new URL(`../../node_modules/.cache/typeface/${name}`, import.meta.url));
  for (const face of Object.keys(FACES) as (keyof typeof FACES)[]) {
    const file = join(folder, `${face}.woff2`);
    if (existsSync(file)) continue;
    mkdirSync(folder, { recursive: true });
    // Two processes may be at it: neither must see half a file.
    writeFileSync(`${file}.${process.pid}`, await cut(readFileSync(wholeFace(face))));
    renameSync(`${file}.${process.pid}`, file);
  }
  return folder;
}

function cut(face: Buffer): Promise<Buffer> {
  return subsetFont(face, CHARACTERS, {
    targetFormat: 'woff2',
    keepFeatures: FEATURES,
    noHinting: true,
    noLayoutClosure: true,
    preserveNameIds: COPYRIGHT_AND_LICENCE,
  });
}

function between(first: number, last: number): string[] {
  return Array.from({ length: last - first + 1 }, (_, i) => String.fromCodePoint(first + i));
}
