/** The card's geometry for other programs. */
import {
  ANCHORS,
  CARD_HEIGHT_MM,
  CARD_VERSION,
  CARD_WIDTH_MM,
  FIDUCIALS,
  NEUTRALS,
  SLOT,
} from '../core/card/geometry.ts';
import type { CardVariant, Neutral, Rect } from '../core/card/geometry.ts';
import type { Box } from '../core/card/drawing.ts';
import { PX_PER_MM } from './card-png.ts';

/** (xMm, yMm) is the top left corner; `ink` the nominal coverage in black, 0 to 1. */
export interface CardJson {
  readonly version: number;
  readonly printMark: number;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly pxPerMm: number;
  readonly slot: Box;
  readonly fiducials: readonly Rect[];
  readonly neutrals: readonly Neutral[];
  readonly anchors: readonly Rect[];
}

export function cardJson(variant: CardVariant, printMark: number): CardJson {
  return {
    version: CARD_VERSION,
    printMark,
    widthMm: CARD_WIDTH_MM,
    heightMm: CARD_HEIGHT_MM,
    pxPerMm: PX_PER_MM,
    slot: box(SLOT),
    fiducials: FIDUCIALS.map(rect),
    neutrals: NEUTRALS.map((neutral) => ({ ...rect(neutral), ink: neutral.ink })),
    anchors: variant === 'colour' ? ANCHORS.map(rect) : [],
  };
}

function rect(from: Rect): Rect {
  return { id: from.id, ...box(from) };
}

function box({ xMm, yMm, widthMm, heightMm }: Rect): Box {
  return { xMm, yMm, widthMm, heightMm };
}
