/** What the card says of itself in black cells: its version, which of the two cards it is, and the print's own mark. */
import { type CardVariant, parseVersionBits, type Rect, VERSION_CELLS } from '../core/card/geometry.ts';
import { parsePrintMarkBits, PRINT_MARK_CELLS } from '../core/card/print-mark.ts';
import { outlineOf, samplePatch } from './patch.ts';
import type { Pixels } from './pixels.ts';
import { mean } from '../core/math/average.ts';

export interface CardCodes {
  /** Null where the code couldn't be read. */
  readonly version: number | null;
  /** Colour where it couldn't be read. */
  readonly variant: CardVariant;
  /** Null on version 1, which has none, and where it couldn't be read. */
  readonly printMark: number | null;
}

export function readCodes(flat: Pixels): CardCodes {
  const code = readVersion(flat);
  return {
    version: code?.version ?? null,
    variant: code?.variant ?? 'colour',
    printMark: code?.version === 1 ? null : readPrintMark(flat),
  };
}

/** Beside each cell of the version code the paper is bare this far to the right, mm. */
const PAPER_BESIDE_MM = 5.3;
/** Encoded brightness of a black cell over that of the paper beside it: between solid ink and bare paper. */
const INK_SHARE = 0.65;
const VERSION_INSET_MM = 0.8;

/** @returns null when the code can't be read */
export function readVersion(flat: Pixels): { version: number; variant: CardVariant } | null {
  const bits = VERSION_CELLS.map((cell) => {
    const paper = { ...cell, xMm: cell.xMm + PAPER_BESIDE_MM, widthMm: 1.4 };
    return brightness(flat, cell, VERSION_INSET_MM) < INK_SHARE * brightness(flat, paper, 0);
  });
  return parseVersionBits(bits);
}

const MARK_INSET_MM = 0.7;
/** Bare paper above and below the cells: how far off, and how high, mm. */
const [PAPER_OFF_MM, PAPER_HIGH_MM] = [0.45, 0.9];
/** Each mark has eight black cells or more, and eight white ones: the darkest and lightest of them. */
const SURE = 6;
/** The darkest cells over the lightest, encoded brightness, above which there are no cells at all. */
const MAX_DARK = 0.8;

/** @returns null when there is no mark, or one that can't be read for sure */
export function readPrintMark(flat: Pixels): number | null {
  const columns = PRINT_MARK_CELLS.length / 2;
  const [top, bottom] = [PRINT_MARK_CELLS[0]!, PRINT_MARK_CELLS[columns]!];
  const paper = PRINT_MARK_CELLS.slice(0, columns).map((cell) =>
    Math.max(
      brightness(flat, { ...cell, yMm: top.yMm - PAPER_OFF_MM - PAPER_HIGH_MM, heightMm: PAPER_HIGH_MM }, 0),
      brightness(flat, { ...cell, yMm: bottom.yMm + bottom.heightMm + PAPER_OFF_MM, heightMm: PAPER_HIGH_MM }, 0),
    ),
  );
  const shares = PRINT_MARK_CELLS.map((cell, i) => brightness(flat, cell, MARK_INSET_MM) / paper[i % columns]!);
  const sorted = shares.toSorted((one, other) => one - other);
  const [dark, light] = [mean(sorted.slice(0, SURE)), mean(sorted.slice(-SURE))];
  if (!(dark < MAX_DARK * light)) return null;
  return parsePrintMarkBits(shares.map((share) => share < (dark + light) / 2));
}

function brightness(flat: Pixels, rect: Omit<Rect, 'id'>, insetMm: number): number {
  const sample = samplePatch(flat, { id: '', outline: outlineOf(rect), insetMm });
  return sample ? (sample.rgb[0] + sample.rgb[1] + sample.rgb[2]) / 3 : 0;
}
