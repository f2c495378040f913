/** What flattening a photo works in: squares of the flat picture, each between four places in the photo. */

/** The map is worked out at nodes this far apart; between them a straight line is exact to a hundredth of a pixel. */
export const CELL_PX = 10;
/** Places in the photo are counted in steps of 2^-16 px: integers are faster. */
export const ONE = 65536;

/**
 * Fills one cell of the flat picture.
 * @param corners places in the photo of the cell's four nodes, x and y in turn: the two above, then the two below
 * @param flat RGBA, a number a pixel
 * @param at of the cell's first pixel, in `flat`
 */
export type FillCell = (corners: Float64Array, flat: Int32Array, at: number) => void;

interface Size {
  readonly width: number;
  readonly height: number;
}

/** Whether all places between the corners, and those beside them, are in the photo. */
export function isCellInside(corners: Float64Array, { width, height }: Size): boolean {
  for (let i = 0; i < 8; i += 2) {
    const [x, y] = [corners[i]!, corners[i + 1]!];
    if (x < 1 || y < 1 || x > width - 1 || y > height - 1) return false;
  }
  return true;
}

/** A straight line across a cell: its first place in the photo, and the way to the next, 2^16 a pixel. */
export interface CellLine {
  readonly x: number;
  readonly y: number;
  readonly dx: number;
  readonly dy: number;
}

/** @param share of the way down @param steps places on the line: each in the middle of its step */
export function lineAcross(corners: Float64Array, share: number, steps: number): CellLine {
  const [left, top] = [downSide(corners, 0, share), downSide(corners, 1, share)];
  const dx = (((downSide(corners, 2, share) - left) * ONE) / steps) | 0;
  const dy = (((downSide(corners, 3, share) - top) * ONE) / steps) | 0;
  // Times a half: a quotient is compiled as a whole number until the first that isn't one.
  return { x: (left * ONE + dx * 0.5) | 0, y: (top * ONE + dy * 0.5) | 0, dx, dy };
}

/** The line through the middles of a row of the cell's pixels, counted from a pixel's centre, not cut to whole numbers. */
export function rowAcross(corners: Float64Array, row: number): CellLine {
  const share = (row + 0.5) / CELL_PX;
  const [left, top] = [downSide(corners, 0, share), downSide(corners, 1, share)];
  const dx = ((downSide(corners, 2, share) - left) * ONE) / CELL_PX;
  const dy = ((downSide(corners, 3, share) - top) * ONE) / CELL_PX;
  // Rounded to a sixteenth below.
  return { x: (left - 0.5 + 1 / 32) * ONE + dx * 0.5, y: (top - 0.5 + 1 / 32) * ONE + dy * 0.5, dx, dy };
}

/** A number of the cell's left or right side (`side` 0 or 2: x, 1 or 3: y), at a share of the way down. */
function downSide(corners: Float64Array, side: number, share: number): number {
  return corners[side]! * (1 - share) + corners[side + 4]! * share;
}

/** Parts of the card outside the photo repeat its border. */
export function inside(index: number, length: number): number {
  return index < 0 ? 0 : index < length ? index : length - 1;
}
