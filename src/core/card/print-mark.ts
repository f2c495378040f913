/**
 * A mark of its own for each print of the card: twelve bits in twenty-four cells, chosen when it is printed.
 *
 * The cells hold a word of the extended binary Golay code (M. J. E. Golay, Proc. IRE 37:657, 1949): any two words
 * differ in eight cells or more, so that with one cell mended up to six wrong ones are still noticed. A mark that isn't
 * read costs a question; one that is mistaken would make two prints one.
 */
import type { Rect } from './geometry.ts';

/** All cells white or all black would be bare paper or a shadow. */
export const MIN_MARK = 1;
export const MAX_MARK = 0xffe;

const COLUMNS = 12;
const CELL_WIDTH_MM = 3;
const CELL_HEIGHT_MM = 2.5;

/** Two rows of twelve cells under the lower greys, the first row from left to right and then the second. */
export const PRINT_MARK_CELLS: readonly Rect[] = Array.from({ length: 2 * COLUMNS }, (_, i) => ({
  id: `k${i + 1}`,
  xMm: 84 + CELL_WIDTH_MM * (i % COLUMNS),
  yMm: 81.5 + CELL_HEIGHT_MM * Math.floor(i / COLUMNS),
  widthMm: CELL_WIDTH_MM,
  heightMm: CELL_HEIGHT_MM,
}));

/** x^11 + x^10 + x^6 + x^5 + x^4 + x^2 + 1, which divides x^23 - 1. */
const GENERATOR = 0b110001110101;

/** The twenty-four cells, the mark's highest bit first; true is black. */
export function printMarkBits(mark: number): boolean[] {
  let rest = mark << 11;
  for (let bit = 22; bit >= 11; bit--) if ((rest >> bit) & 1) rest ^= GENERATOR << (bit - 11);
  const word = (mark << 11) | rest;
  const bits = Array.from({ length: 23 }, (_, i) => ((word >> (22 - i)) & 1) === 1);
  return [...bits, bits.filter(Boolean).length % 2 === 1];
}

const WORDS: readonly (readonly boolean[])[] = Array.from({ length: 1 << 12 }, (_, mark) => printMarkBits(mark));

/** Reads the cells back, at most one of them wrong; null when they are no mark's. */
export function parsePrintMarkBits(bits: readonly boolean[]): number | null {
  if (bits.length !== PRINT_MARK_CELLS.length) return null;
  const mark = WORDS.findIndex((word) => {
    let wrong = 0;
    for (let i = 0; i < word.length && wrong < 2; i++) if (word[i] !== bits[i]) wrong++;
    return wrong < 2;
  });
  return isPrintMark(mark) ? mark : null;
}

export function isPrintMark(mark: number): boolean {
  return Number.isInteger(mark) && mark >= MIN_MARK && mark <= MAX_MARK;
}

/** As it is printed beside the cells: three hexadecimal digits. */
export function printMarkName(mark: number): string {
  return mark.toString(16).toUpperCase().padStart(3, '0');
}

/** @param share evenly between 0 and 1 */
export function printMarkAt(share: number): number {
  return MIN_MARK + Math.min(MAX_MARK - MIN_MARK, Math.floor(share * (MAX_MARK - MIN_MARK + 1)));
}

/** A card as a photo shows it, or as a photo that taught a scale did. */
export interface SeenPrint {
  /** Null where its code couldn't be read. */
  readonly version: number | null;
  /** Null on version 1, which has none, and where it couldn't be read. */
  readonly printMark: number | null;
}

/** Whether two photos show the same print, by what is printed on it; 'unknown' leaves only the colours to ask. */
export function comparePrints(one: SeenPrint, other: SeenPrint): 'same' | 'another' | 'unknown' {
  if (one.printMark !== null && other.printMark !== null) return one.printMark === other.printMark ? 'same' : 'another';
  const areVersionsRead = one.version !== null && other.version !== null;
  return areVersionsRead && one.version !== other.version ? 'another' : 'unknown';
}
