/** The card as printed, seen straight from above, in several finenesses. */
import { drawCard } from '../../../src/core/card/drawing.ts';
import { CARD_HEIGHT_MM, CARD_WIDTH_MM, type CardVariant } from '../../../src/core/card/geometry.ts';
import type { Pixels } from '../../../src/vision/pixels.ts';
import { blank, type Canvas, type Colour, fillBox, halve, randomFrom, toPixels } from './canvas.ts';
import { CARD_WORDS } from '../../../src/words/card.ts';

const PAPER = 238;
const SOLID = 34;
/** Of the finest, px/mm. */
const SCALE = 20;

/** The card as printed, at 20 px/mm and each half of that in turn. */
function cardLevels(variant: CardVariant, mark: number | null): readonly Canvas[] {
  const scale = SCALE;
  const card = blank(CARD_WIDTH_MM * scale, CARD_HEIGHT_MM * scale, [PAPER, PAPER, PAPER]);
  for (const shape of drawCard(variant, mark, CARD_WORDS)) {
    if (shape.kind === 'boxes') {
      const paint = shape.paint;
      const colour: Colour =
        'ink' in paint ? grey(paint.ink) : [paint.srgb[0] * PAPER, paint.srgb[1] * PAPER, paint.srgb[2] * PAPER];
      for (const { xMm, yMm, widthMm, heightMm } of shape.boxes) {
        fillBox(card, xMm * scale, yMm * scale, (xMm + widthMm) * scale, (yMm + heightMm) * scale, colour);
      }
    } else if (shape.kind === 'disc') {
      fillDisc(card, shape.xMm * scale, shape.yMm * scale, (shape.diameterMm / 2) * scale);
    } else {
      // Type as upright strokes: what matters here is that something dark is there.
      const step = shape.sizeMm * 0.45;
      const length = shape.text.length * step;
      const start = shape.anchor === 'start' ? 0 : shape.anchor === 'end' ? -length : -length / 2;
      for (let i = 0; i < shape.text.length; i++) {
        if (shape.text[i] === ' ') continue;
        const along = start + i * step;
        const [x, y, w, h] =
          shape.turnDegrees === 0
            ? [shape.xMm + along, shape.yMm - shape.sizeMm * 0.6, step * 0.5, shape.sizeMm * 0.6]
            : [shape.xMm, shape.yMm + along, shape.sizeMm * 0.6, step * 0.5];
        fillBox(card, x * scale, y * scale, (x + w) * scale, (y + h) * scale, grey(1));
      }
    }
  }
  return halved(card);
}

function halved(canvas: Canvas): readonly Canvas[] {
  const levels = [canvas];
  for (let i = 0; i < 4; i++) levels.push(halve(levels[i]!));
  return levels;
}

/** A rectangle of solid ink on a sheet. */
export interface Box {
  readonly xMm: number;
  readonly yMm: number;
  readonly widthMm: number;
  readonly heightMm: number;
}

/** Another print on a sheet of the card's paper, size and ink, in the same finenesses. */
export function sheetLevels(boxes: readonly Box[]): readonly Canvas[] {
  const sheet = blank(CARD_WIDTH_MM * SCALE, CARD_HEIGHT_MM * SCALE, [PAPER, PAPER, PAPER]);
  for (const { xMm, yMm, widthMm, heightMm } of boxes)
    fillBox(sheet, xMm * SCALE, yMm * SCALE, (xMm + widthMm) * SCALE, (yMm + heightMm) * SCALE, grey(1));
  return halved(sheet);
}

const levelsOf = new Map<string, readonly Canvas[]>();

/** @param mark null: the card of version 1 */
export function levels(variant: CardVariant, mark: number | null = null): readonly Canvas[] {
  const name = `${variant} ${mark}`;
  const known = levelsOf.get(name) ?? cardLevels(variant, mark);
  levelsOf.set(name, known);
  return known;
}

/** The card itself seen straight from above, at 10 px/mm. */
export function flatCard(variant: CardVariant = 'colour', mark: number | null = null): Pixels {
  return toPixels(levels(variant, mark)[1]!, 0, randomFrom(1));
}

function grey(ink: number): Colour {
  const level = PAPER + (SOLID - PAPER) * ink ** 0.8;
  return [level, level, level];
}

function fillDisc(canvas: Canvas, cx: number, cy: number, radius: number): void {
  for (let y = Math.floor(cy - radius); y < cy + radius; y++) {
    for (let x = Math.floor(cx - radius); x < cx + radius; x++) {
      if (Math.hypot(x + 0.5 - cx, y + 0.5 - cy) < radius) canvas.rgb.set(grey(1), (y * canvas.width + x) * 3);
    }
  }
}
