/**
 * What is printed on the card, as an ordered list of shapes in millimetres from
 * the card's top left corner (x right, y down). PDF, SVG and PNG all draw this list.
 */
import {
  ANCHORS,
  CARD_VERSION,
  CHECK_RULE,
  FIDUCIALS,
  FIDUCIAL_CELL_MM,
  FIDUCIAL_FRAME_MM,
  MARKS,
  NEUTRALS,
  SLOT,
  VERSION_CELLS,
  versionBits,
} from './geometry.ts';
import type { CardVariant, Fiducial, Rect } from './geometry.ts';
import { isPrintMark, PRINT_MARK_CELLS, printMarkBits, printMarkName } from './print-mark.ts';

/** Black ink of a coverage 0 (bare paper) to 1 (solid), or a colour for the printer to mix, sRGB 0 to 1. */
export type Paint = { readonly ink: number } | { readonly srgb: readonly [number, number, number] };

export type Box = Omit<Rect, 'id'>;

export type FontWeight = 'regular' | 'semibold';

interface Printed {
  /** Which thing on the card this belongs to; shapes of one part may touch. */
  readonly part: string;
}

/** Boxes filled as one path, so that neighbours show no seam. */
export interface Boxes extends Printed {
  readonly kind: 'boxes';
  readonly boxes: readonly Box[];
  readonly paint: Paint;
}

export interface Disc extends Printed {
  readonly kind: 'disc';
  readonly xMm: number;
  readonly yMm: number;
  readonly diameterMm: number;
  readonly paint: Paint;
}

/** One line of solid black type. */
export interface Text extends Printed {
  readonly kind: 'text';
  readonly text: string;
  /** The anchor's place on the baseline. */
  readonly xMm: number;
  readonly yMm: number;
  readonly anchor: 'start' | 'middle' | 'end';
  /** The height of the em. */
  readonly sizeMm: number;
  readonly weight: FontWeight;
  /** Clockwise about the anchor. */
  readonly turnDegrees: number;
}

export type Shape = Boxes | Disc | Text;

/** What the card says. */
export interface CardWords {
  readonly title: string;
  readonly use: readonly [string, string];
  readonly version: (version: number) => string;
  readonly variant: Readonly<Record<CardVariant, string>>;
  /** Stands before the name of the print's mark. */
  readonly print: string;
  readonly slot: string;
  readonly printing: string;
  readonly firstPrinting: readonly [string, string];
  /** Where the card without colours has no patches: a title and a line above, two lines below. */
  readonly black: readonly [string, string, string, string];
}

/** The parts that differ from print to print: the mark's cells, and its name in one line of type. */
export const PRINT_MARK = 'print-mark';
export const PRINT_NAME = 'print-name';

const SOLID: Paint = { ink: 1 };
const HAIRLINE_MM = 0.2;

/** Stands where the mark's name will, on a card that has none yet. */
export const NO_NAME = '–––';

/**
 * The whole card; the black variant has no anchors and says so.
 * @param mark the print's own; null: the card as it was before prints had marks, version 1; 0: no mark yet
 */
export function drawCard(variant: CardVariant, mark: number | null, words: CardWords): readonly Shape[] {
  return [
    ...FIDUCIALS.map(fiducialShape),
    ...slotShapes(),
    ...NEUTRALS.flatMap((neutral) =>
      neutral.ink > 0 ? [patch(neutral, { ink: neutral.ink })] : [cornerTicks(neutral)],
    ),
    ...(variant === 'colour' ? ANCHORS.map((anchor) => patch(anchor, { srgb: anchor.srgb })) : []),
    ...MARKS.map(({ id, xMm, yMm, diameterMm }): Disc => ({
      kind: 'disc',
      part: id,
      xMm,
      yMm,
      diameterMm,
      paint: SOLID,
    })),
    versionShape(variant, mark === null ? 1 : CARD_VERSION),
    ...(mark === null ? [] : [printMarkShape(mark)]),
    ...ruleShapes(),
    ...cardTexts(variant, words),
    ...(mark === null ? firstVersionTexts(variant, words) : markedTexts(variant, mark, words)),
  ];
}

function patch({ id, ...rect }: Rect, paint: Paint): Boxes {
  const { xMm, yMm, widthMm, heightMm } = rect;
  return { kind: 'boxes', part: id, boxes: [{ xMm, yMm, widthMm, heightMm }], paint };
}

function fiducialShape(fiducial: Fiducial): Boxes {
  const { id, xMm, yMm, widthMm, heightMm, cells } = fiducial;
  const inside = widthMm - 2 * FIDUCIAL_FRAME_MM;
  const boxes: Box[] = [
    ...frame(fiducial, -FIDUCIAL_FRAME_MM, FIDUCIAL_FRAME_MM),
    ...cells.flatMap((row, r) =>
      [...row].flatMap((cell, c) =>
        cell === '#'
          ? [
              {
                xMm: xMm + FIDUCIAL_FRAME_MM + c * FIDUCIAL_CELL_MM,
                yMm: yMm + FIDUCIAL_FRAME_MM + r * FIDUCIAL_CELL_MM,
                widthMm: FIDUCIAL_CELL_MM,
                heightMm: FIDUCIAL_CELL_MM,
              },
            ]
          : [],
      ),
    ),
  ];
  if (Math.abs(inside - FIDUCIAL_CELL_MM * cells.length) > 1e-9 || widthMm !== heightMm) {
    throw new Error(`Fiducial ${id}: its cells don't fill its frame`);
  }
  return { kind: 'boxes', part: id, boxes, paint: SOLID };
}

/** Four boxes around a rectangle, `offsetMm` outside its edges (inside when negative). */
function frame({ xMm, yMm, widthMm, heightMm }: Box, offsetMm: number, strokeMm: number): Box[] {
  const left = xMm - offsetMm - strokeMm;
  const top = yMm - offsetMm - strokeMm;
  const right = xMm + widthMm + offsetMm;
  const bottom = yMm + heightMm + offsetMm;
  const outerWidth = right + strokeMm - left;
  return [
    { xMm: left, yMm: top, widthMm: outerWidth, heightMm: strokeMm },
    { xMm: left, yMm: bottom, widthMm: outerWidth, heightMm: strokeMm },
    { xMm: left, yMm: top + strokeMm, widthMm: strokeMm, heightMm: bottom - top - strokeMm },
    { xMm: right, yMm: top + strokeMm, widthMm: strokeMm, heightMm: bottom - top - strokeMm },
  ];
}

/** The outline lies outside the grey, so that none of the grey is lost. */
function slotShapes(): Boxes[] {
  return [
    patch(SLOT, { ink: SLOT.ink }),
    { kind: 'boxes', part: SLOT.id, boxes: frame(SLOT, 0, HAIRLINE_MM), paint: SOLID },
  ];
}

/** Shows where a patch of bare paper is, without printing on it. */
function cornerTicks({ id, xMm, yMm, widthMm, heightMm }: Rect): Boxes {
  const gapMm = 0.25;
  const lengthMm = 1.8;
  const lefts = [xMm - gapMm - HAIRLINE_MM, xMm + widthMm + gapMm];
  const tops = [yMm - gapMm - HAIRLINE_MM, yMm + heightMm + gapMm];
  const boxes = tops.flatMap((top, isBottom) =>
    lefts.flatMap((left, isRight): Box[] => [
      {
        xMm: isRight ? left + HAIRLINE_MM - lengthMm : left,
        yMm: top,
        widthMm: lengthMm,
        heightMm: HAIRLINE_MM,
      },
      {
        xMm: left,
        yMm: isBottom ? top + HAIRLINE_MM - lengthMm : top + HAIRLINE_MM,
        widthMm: HAIRLINE_MM,
        heightMm: lengthMm - HAIRLINE_MM,
      },
    ]),
  );
  return { kind: 'boxes', part: id, boxes, paint: SOLID };
}

function versionShape(variant: CardVariant, version: number): Boxes {
  return cellsShape('version', VERSION_CELLS, versionBits(version, variant));
}

function printMarkShape(mark: number): Boxes {
  return cellsShape(PRINT_MARK, PRINT_MARK_CELLS, printMarkBits(mark));
}

function cellsShape(part: string, cells: readonly Rect[], bits: readonly boolean[]): Boxes {
  const boxes = cells
    .filter((_, i) => bits[i])
    .map(({ xMm, yMm, widthMm, heightMm }) => ({ xMm, yMm, widthMm, heightMm }));
  return { kind: 'boxes', part, boxes, paint: SOLID };
}

/** Ticks hang below the line; the first and the last are centred on its ends. */
function ruleShapes(): Shape[] {
  const { xMm, yMm, lengthMm } = CHECK_RULE;
  const strokeMm = 0.15;
  const half = strokeMm / 2;
  const line: Box = { xMm: xMm - half, yMm: yMm - strokeMm, widthMm: lengthMm + strokeMm, heightMm: strokeMm };
  const ticks = Array.from({ length: lengthMm + 1 }, (_, mm): Box => {
    const heightMm = mm % 10 === 0 ? 1.8 : mm % 5 === 0 ? 1.3 : 0.8;
    return { xMm: xMm + mm - half, yMm, widthMm: strokeMm, heightMm };
  });
  const numbers = Array.from({ length: lengthMm / 10 + 1 }, (_, i) =>
    type('rule', `${i * 10}`, xMm + i * 10, yMm + 3.9, { sizeMm: 2.1, anchor: 'middle' }),
  );
  return [{ kind: 'boxes', part: 'rule', boxes: [line, ...ticks], paint: SOLID }, ...numbers];
}

function cardTexts(variant: CardVariant, { title, use, black }: CardWords): Text[] {
  return [
    type('title', title, 22.5, 22.7, { sizeMm: 4.6, weight: 'semibold' }),
    type('use', use[0], 77, 20.4, { sizeMm: 2.3 }),
    type('use', use[1], 77, 23.3, { sizeMm: 2.3 }),
    ...(variant === 'black' ? blackNotes(black) : []),
  ];
}

const MIDDLE_MM = SLOT.yMm + SLOT.heightMm / 2;

function markedTexts(variant: CardVariant, mark: number, words: CardWords): Text[] {
  const beside = { anchor: 'middle', turnDegrees: 90 } as const;
  return [
    type('edition', `${words.version(CARD_VERSION)}, ${words.variant[variant]}`, 71.5, 20.4, {
      sizeMm: 2,
      anchor: 'end',
    }),
    type('edition', words.print, 65.6, 23.3, { sizeMm: 2.3, anchor: 'end' }),
    type(PRINT_NAME, isPrintMark(mark) ? printMarkName(mark) : NO_NAME, 66.4, 23.3, {
      sizeMm: 2.3,
      weight: 'semibold',
    }),
    type('hint', words.slot, 144.4, MIDDLE_MM, { sizeMm: 2.5, ...beside }),
    type('printing', words.printing, 141.1, MIDDLE_MM, {
      sizeMm: 2.1,
      ...beside,
    }),
  ];
}

function firstVersionTexts(variant: CardVariant, words: CardWords): Text[] {
  return [
    type('edition', words.version(1), 71.5, 20.4, { sizeMm: 2.3, anchor: 'end' }),
    type('edition', words.variant[variant], 71.5, 23.3, { sizeMm: 2.3, anchor: 'end' }),
    type('printing', words.firstPrinting[0], 79, 83.6, { sizeMm: 2.3 }),
    type('printing', words.firstPrinting[1], 79, 86.5, { sizeMm: 2.3 }),
    type('hint', words.slot, 142.2, MIDDLE_MM, {
      sizeMm: 2.5,
      anchor: 'middle',
      turnDegrees: 90,
    }),
  ];
}

/** Fills the place of the anchors on the card that has none. */
function blackNotes([title, use, cause, effect]: CardWords['black']): Text[] {
  return [
    type('black-note', title, 74, 9.8, {
      sizeMm: 4,
      weight: 'semibold',
      anchor: 'middle',
    }),
    type('black-note', use, 74, 14.2, { sizeMm: 2.7, anchor: 'middle' }),
    type('black-note-below', cause, 74, 94, {
      sizeMm: 2.7,
      anchor: 'middle',
    }),
    type('black-note-below', effect, 74, 97.8, {
      sizeMm: 2.7,
      anchor: 'middle',
    }),
  ];
}

function type(
  part: string,
  text: string,
  xMm: number,
  yMm: number,
  style: Pick<Text, 'sizeMm'> & Partial<Pick<Text, 'weight' | 'anchor' | 'turnDegrees'>>,
): Text {
  return { kind: 'text', part, text, xMm, yMm, anchor: 'start', weight: 'regular', turnDegrees: 0, ...style };
}
