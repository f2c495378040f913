/**
 * The card's PDF is made once, without a mark; whoever prints it gets one stamped in. Every place that differs from print
 * to print is as long with a mark as without, so that the file's table of offsets stays right.
 */
import { printMarkBits, printMarkName } from './print-mark.ts';

/** Comments in the page's content (ISO 32000-1, 7.2.3): codes of the sixteen digits in the font, then what follows each. */
export const DIGITS = '%digits ';
/** Then the cells, one a line, and the operator that fills them; a line that begins with a % is a comment. */
export const CELLS_FOLLOW = '%print-mark\n';
/** Then three characters, one a line, each as `[<0000>] TJ`. */
export const NAME_FOLLOWS = '%print-name\n';

const SPACE = 32;
const COMMENT = 37;
const NEWLINE = 10;
const CODE_LENGTH = 4;
const CODE_AT = '[<'.length;

/**
 * @param template left as it is
 * @returns the same file with this mark on each of its cards
 * @throws RangeError when the file isn't a card's
 */
export function stampPdf(template: Uint8Array, mark: number): Uint8Array<ArrayBuffer> {
  const bytes = new Uint8Array(template);
  const bits = printMarkBits(mark);
  const [digits] = placesOf(bytes, DIGITS);
  const cells = placesOf(bytes, CELLS_FOLLOW);
  const names = placesOf(bytes, NAME_FOLLOWS);
  if (digits === undefined || cells.length === 0 || cells.length !== names.length) {
    throw new RangeError('this file is no card to be marked');
  }
  for (const start of cells) {
    let at = start;
    for (const isBlack of [...bits, true]) {
      bytes[at] = isBlack ? SPACE : COMMENT;
      at = nextLine(bytes, at);
    }
  }
  for (const start of names) {
    let at = start;
    for (const digit of printMarkName(mark)) {
      const code = digits + (CODE_LENGTH + 1) * parseInt(digit, 16);
      bytes.copyWithin(at + CODE_AT, code, code + CODE_LENGTH);
      at = nextLine(bytes, at);
    }
  }
  return bytes;
}

/** Where the bytes after each of these texts begin. */
function placesOf(bytes: Uint8Array, text: string): number[] {
  const wanted = [...text].map((letter) => letter.charCodeAt(0));
  const places: number[] = [];
  for (let at = bytes.indexOf(wanted[0]!); at >= 0; at = bytes.indexOf(wanted[0]!, at + 1)) {
    if (wanted.every((byte, i) => bytes[at + i] === byte)) places.push(at + wanted.length);
  }
  return places;
}

function nextLine(bytes: Uint8Array, at: number): number {
  return bytes.indexOf(NEWLINE, at) + 1;
}
