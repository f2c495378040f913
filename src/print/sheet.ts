/** How two cards lie on a sheet of paper. Millimetres from the sheet's top left corner. */
import type { Box, Text } from '../core/card/drawing.ts';
import { CARD_HEIGHT_MM, CARD_WIDTH_MM } from '../core/card/geometry.ts';

/** ISO 216 A4; Letter is 8.5 by 11 inches. */
export const PAPERS = {
  a4: { name: 'A4', widthMm: 210, heightMm: 297 },
  letter: { name: 'Letter', widthMm: 215.9, heightMm: 279.4 },
} as const;

export type Paper = keyof typeof PAPERS;

export interface Sheet {
  readonly widthMm: number;
  readonly heightMm: number;
  /** The top left corner of each card. */
  readonly cards: readonly { readonly xMm: number; readonly yMm: number }[];
  readonly cropMarks: readonly Box[];
  readonly texts: readonly Text[];
}

const BETWEEN_CARDS_MM = 14;
const CROP_GAP_MM = 2;
const CROP_LENGTH_MM = 5;
const CROP_STROKE_MM = 0.15;

export function layOut(paper: Paper): Sheet {
  const { widthMm, heightMm } = PAPERS[paper];
  const xMm = (widthMm - CARD_WIDTH_MM) / 2;
  const topMm = (heightMm - 2 * CARD_HEIGHT_MM - BETWEEN_CARDS_MM) / 2;
  const cards = [0, 1].map((i) => ({ xMm, yMm: topMm + i * (CARD_HEIGHT_MM + BETWEEN_CARDS_MM) }));
  return {
    widthMm,
    heightMm,
    cards,
    cropMarks: cards.flatMap((card) => cropMarks(card.xMm, card.yMm)),
    texts: [
      caption(
        widthMm / 2,
        topMm - 11.5,
        'Print at 100 % (“actual size”) on plain matt paper. Let it dry, then cut along the corner marks.',
      ),
      caption(widthMm / 2, heightMm - topMm + 13.5, 'Two cards: use one, keep the other flat and in the dark.'),
    ],
  };
}

function cropMarks(xMm: number, yMm: number): Box[] {
  const half = CROP_STROKE_MM / 2;
  return [yMm, yMm + CARD_HEIGHT_MM].flatMap((cornerY, isBottom) =>
    [xMm, xMm + CARD_WIDTH_MM].flatMap((cornerX, isRight): Box[] => [
      {
        xMm: isRight ? cornerX + CROP_GAP_MM : cornerX - CROP_GAP_MM - CROP_LENGTH_MM,
        yMm: cornerY - half,
        widthMm: CROP_LENGTH_MM,
        heightMm: CROP_STROKE_MM,
      },
      {
        xMm: cornerX - half,
        yMm: isBottom ? cornerY + CROP_GAP_MM : cornerY - CROP_GAP_MM - CROP_LENGTH_MM,
        widthMm: CROP_STROKE_MM,
        heightMm: CROP_LENGTH_MM,
      },
    ]),
  );
}

function caption(xMm: number, yMm: number, text: string): Text {
  return {
    kind: 'text',
    part: 'sheet',
    text,
    xMm,
    yMm,
    anchor: 'middle',
    sizeMm: 3.3,
    weight: 'regular',
    turnDegrees: 0,
  };
}
