/** The card's type, from a font in the project's dependencies, so that it prints alike on every machine. */
import { createRequire } from 'node:module';
import * as fontkit from 'fontkit';
import type { Font } from 'fontkit';
import type { FontWeight, Text } from '../core/card/drawing.ts';

const WEIGHTS = { regular: 400, semibold: 600 } as const;

const faces = new Map<FontWeight, Font>();

/** Path of the font file. WOFF rather than WOFF2: fontkit can't write subsets of the latter. */
export function faceFile(weight: FontWeight): string {
  const require = createRequire(import.meta.url);
  return require.resolve(`@fontsource/source-serif-4/files/source-serif-4-latin-${WEIGHTS[weight]}-normal.woff`);
}

/** One glyph of a line: its outline in font units (y up) and where it starts on the baseline, mm from the line's start. */
export interface PlacedGlyph {
  readonly id: number;
  readonly outline: string;
  readonly xMm: number;
}

export interface Line {
  readonly glyphs: readonly PlacedGlyph[];
  readonly widthMm: number;
  /** Millimetres to a font unit. */
  readonly unitMm: number;
  /** How far the ink reaches above and below the baseline at most, mm. */
  readonly riseMm: number;
  readonly fallMm: number;
}

/** Sets a text in one line, kerned. Throws where the font lacks a character. */
export function setLine({ text, weight, sizeMm }: Pick<Text, 'text' | 'weight' | 'sizeMm'>): Line {
  const face = openFace(weight);
  const unitMm = sizeMm / face.unitsPerEm;
  const run = face.layout(text);
  let units = 0;
  let top = 0;
  let bottom = 0;
  const glyphs = run.glyphs.map((glyph, i): PlacedGlyph => {
    if (glyph.id === 0) throw new Error(`The card's font lacks a character of “${text}”`);
    const { xAdvance, xOffset } = run.positions[i]!;
    const placed = { id: glyph.id, outline: glyph.path.toSVG(), xMm: (units + xOffset) * unitMm };
    units += xAdvance;
    if (placed.outline) {
      top = Math.max(top, glyph.bbox.maxY);
      bottom = Math.min(bottom, glyph.bbox.minY);
    }
    return placed;
  });
  return { glyphs, widthMm: units * unitMm, unitMm, riseMm: top * unitMm, fallMm: -bottom * unitMm };
}

/** How far left of its anchor a line starts. */
export function anchorShiftMm(anchor: Text['anchor'], widthMm: number): number {
  if (anchor === 'start') return 0;
  return anchor === 'middle' ? widthMm / 2 : widthMm;
}

function openFace(weight: FontWeight): Font {
  const known = faces.get(weight);
  if (known) return known;
  const opened = fontkit.openSync(faceFile(weight));
  if (!('layout' in opened)) throw new Error('The font file holds a collection, not one face');
  faces.set(weight, opened);
  return opened;
}
