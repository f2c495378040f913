/**
 * What stands in for the typeface has its measure: otherwise a page that began without it would be another one. Widths
 * of Times are Adobe's own (font metrics of the standard fonts, as pdfkit carries them), to which Times New Roman,
 * Liberation Serif, Nimbus Roman and Tinos were drawn; `test/pages/typeface.spec.ts` measures every stand-in that the
 * machine has.
 */
import * as fontkit from 'fontkit';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { fileOf, fontsOf, PAGES, textOf } from './files.ts';

/** Share of an em: a line of 16 px is off by less than a twelfth of a pixel. */
const LINE_TOLERANCE = 0.005;
/** Of the width of an average text: a line of 60 letters is off by less than one. */
const WIDTH_TOLERANCE = 0.01;

const CUTS = { 'normal 400': 'regular', 'italic 400': 'italic', 'normal 500 900': 'semibold' } as const;
const TIMES = { regular: 'Times-Roman', italic: 'Times-Italic', semibold: 'Times-Bold' } as const;

const standIns = [...readFileSync('src/styles/typeface.css', 'utf8').matchAll(/@font-face \{([^}]*)\}/g)]
  .map(([, body]) => Object.fromEntries([...body!.matchAll(/([\w-]+): ([^;]+);/g)].map(([, k, v]) => [k!, v!])))
  .filter((face) => face['size-adjust'])
  .map((face) => ({
    family: face['font-family']!.replaceAll("'", ''),
    cut: CUTS[`${face['font-style']} ${face['font-weight']}` as keyof typeof CUTS],
    size: parseFloat(face['size-adjust']!) / 100,
    ascent: parseFloat(face['ascent-override']!) / 100,
    descent: parseFloat(face['descent-override']!) / 100,
    gap: parseFloat(face['line-gap-override']!),
  }));

const text = PAGES.filter((path) => /^\/learn\/[^/]+\/$/.test(path))
  .flatMap((path) => [...textOf(path).matchAll(/<p>([^<]+)/g)].map(([, words]) => words!))
  .join(' ')
  .replaceAll(/[^A-Za-z ,.]/g, '');

/** As it is shipped. */
function sourceSerif(cut: keyof typeof TIMES) {
  const face = fontkit.openSync(fileOf(fontsOf('/').find((path) => path.includes(`/${cut}.`))!));
  if (!('unitsPerEm' in face)) throw new Error('not one face');
  const em = face.unitsPerEm;
  const widthOf = (letter: string) => face.glyphForCodePoint(letter.codePointAt(0)!).advanceWidth / em;
  return { ascent: face.ascent / em, descent: -face.descent / em, gap: face.lineGap / em, width: widthBy(widthOf) };
}

/** Mean of a letter, em. */
function widthBy(widthOf: (letter: string) => number): number {
  const counts = new Map<string, number>();
  for (const letter of text) counts.set(letter, (counts.get(letter) ?? 0) + 1);
  return [...counts].reduce((sum, [letter, count]) => sum + count * widthOf(letter), 0) / text.length;
}

function timesWidth(name: string): number {
  const folder = dirname(createRequire(import.meta.url).resolve('pdfkit'));
  const table = readFileSync(join(folder, 'data', `${name}.afm`), 'utf8');
  const widths = new Map(
    [...table.matchAll(/^C (\d+) ; WX (\d+)/gm)].map(([, code, width]) => [Number(code), Number(width)]),
  );
  return widthBy((letter) => widths.get(letter.charCodeAt(0))! / 1000);
}

it('there are stand-ins, each in the three cuts, and a text to measure by', () => {
  expect(standIns.length).toBeGreaterThanOrEqual(12);
  for (const cut of Object.values(CUTS))
    expect(standIns.filter((one) => one.cut === cut)).toHaveLength(standIns.length / 3);
  expect(text.length).toBeGreaterThan(10_000);
});

describe.each(standIns)('$family, $cut', ({ family, cut, size, ascent, descent, gap }) => {
  const shipped = sourceSerif(cut);

  it('has the typeface’s line', () => {
    expect(Math.abs(size * ascent - shipped.ascent)).toBeLessThan(LINE_TOLERANCE);
    expect(Math.abs(size * descent - shipped.descent)).toBeLessThan(LINE_TOLERANCE);
    expect(gap).toBe(shipped.gap);
  });

  it.runIf(family.endsWith('Times'))('has the typeface’s width', () => {
    expect(Math.abs((size * timesWidth(TIMES[cut])) / shipped.width - 1)).toBeLessThan(WIDTH_TOLERANCE);
  });
});
