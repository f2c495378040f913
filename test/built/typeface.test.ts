import * as fontkit from 'fontkit';
import { globSync, readFileSync } from 'node:fs';
import { extname } from 'node:path';
import { describe, expect, it } from 'vitest';
import { bytesSent, fileOf, fontsOf, PAGES, preloadedOf, textOf } from './files.ts';

const FONTS = fontsOf('/');

/** What may stand on a page or in a field: the text of pages, and every string of scripts and styles. */
const TEXTS = globSync('dist/**/*.{html,js,css,json,webmanifest}').map((file) => {
  const text = readFileSync(file, 'utf8');
  return { file, text: extname(file) === '.html' ? text.replaceAll(/&#(\d+);/g, (_, code) => charOf(code)) : text };
});

function charOf(code: string): string {
  return String.fromCodePoint(Number(code));
}

it('is one face in three cuts on every page, 70 kB at most', () => {
  expect(FONTS).toHaveLength(3);
  for (const page of PAGES) expect(fontsOf(page), page).toEqual(FONTS);
  expect(FONTS.reduce((sum, path) => sum + bytesSent(path), 0)).toBeLessThanOrEqual(70_000);
});

it('asks at once for the two cuts that stand at the top of every page, under the name that the styles use', () => {
  for (const page of PAGES) {
    const preloaded = preloadedOf(page);
    expect(preloaded.map((path) => /(regular|italic)\./.exec(path)?.[1])).toEqual(['regular', 'italic']);
    expect(FONTS).toEqual(expect.arrayContaining(preloaded));
  }
});

it('is kept for use without a network', () => {
  for (const font of FONTS) expect(textOf('/sw.js')).toContain(font.slice(1));
});

describe.each(FONTS)('%s', (path) => {
  const face = fontkit.openSync(fileOf(path));
  if (!('characterSet' in face)) throw new Error('not one face');
  const known = new Set(face.characterSet);

  it('has every character of the pages and scripts', () => {
    expect(TEXTS.length).toBeGreaterThan(100);
    const lacking = TEXTS.flatMap(({ file, text }) =>
      // Control characters and what isn't a character stand in tables of bytes only.
      [...new Set(text)]
        .filter((c) => !/\p{C}|\s/u.test(c) && !known.has(c.codePointAt(0)!))
        .map((c) => `${c} in ${file}`),
    );
    expect(lacking).toEqual([]);
  });

  it('has what people type: accents, figures, units, arrows, subscripts', () => {
    const typed = 'ÄÖÜäöüßéèêëçñøåæœŁłŠšŽžČčĐđŐőŰűİığŢţȘșȚț 0123456789 °C ±×÷−≤≥≈µ²³⅓½€£ ←↑→↓ ₀₁₂₃₄₅₆₇₈₉ “‘’”–…';
    expect([...typed].filter((c) => !known.has(c.codePointAt(0)!))).toEqual([]);
  });

  it('carries its copyright and licence', () => {
    expect(face.copyright).toMatch(/Adobe/);
    // Its types leave the table of names out.
    expect(JSON.stringify((face as unknown as { name: object }).name)).toMatch(/SIL Open Font License/);
  });
});
