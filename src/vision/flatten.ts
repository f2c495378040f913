/** The card as if seen straight from above. */
import { CARD_HEIGHT_MM, CARD_WIDTH_MM, type Rect } from '../core/card/geometry.ts';
import type { Point } from '../core/card/homography.ts';
import { CELL_PX } from './flatten/cell.ts';
import { fillFromPixels } from './flatten/from-pixels.ts';
import { fillFromPlanes } from './flatten/from-planes.ts';
import type { Photo, Pixels } from './pixels.ts';

/** The flattened card shows the whole card, 1480 x 1050 px; its place (x, y) is (x, y) / 10 mm on the card. */
export const FLAT_PX_PER_MM = 10;

const WIDTH = CARD_WIDTH_MM * FLAT_PX_PER_MM;
const HEIGHT = CARD_HEIGHT_MM * FLAT_PX_PER_MM;

const COLUMNS = WIDTH / CELL_PX + 1;
const ROWS = HEIGHT / CELL_PX + 1;

/** Places in the photo taken for each pixel, along each side, at most. */
const MAX_TAPS = 3;

/** Where a place on the card, mm, is in the photo, px. */
export interface CardView {
  toPhoto(xMm: number, yMm: number): Point;
  readonly pxPerMm: number;
}

/**
 * Each pixel is the mean of as many places of the photo as it covers there.
 * Parts of the card outside the photo repeat its border.
 * @param only where the flat picture is wanted, to the millimetre; the rest of it may stay black
 */
export function flatten(photo: Photo, card: CardView, only: readonly Area[] | null = null): Pixels {
  const taps = Math.min(MAX_TAPS, Math.max(1, Math.round(card.pxPerMm / FLAT_PX_PER_MM)));
  const fill = photo.luma ? fillFromPlanes(photo, taps, WIDTH) : fillFromPixels(photo, taps, WIDTH);
  const nodes = nodesOf(card);
  const wanted = wantedCells(only);
  const flat = new Int32Array(WIDTH * HEIGHT);
  const corners = new Float64Array(8);
  // Cell by cell, and not row by row: what is near in the photo is looked at together, however the card is turned.
  for (let cell = 0; cell < wanted.length; cell++) {
    if (wanted[cell] === 0) continue;
    cornersOf(nodes, cell, corners);
    fill(corners, flat, (Math.floor(cell / CELLS) * WIDTH + (cell % CELLS)) * CELL_PX);
  }
  return { data: new Uint8ClampedArray(flat.buffer), width: WIDTH, height: HEIGHT };
}

/** A part of the card, mm. */
export type Area = Pick<Rect, 'xMm' | 'yMm' | 'widthMm' | 'heightMm'>;

const CELLS = COLUMNS - 1;

/** 1 for every cell that is wanted, row by row. */
function wantedCells(only: readonly Area[] | null): Uint8Array {
  const wanted = new Uint8Array(CELLS * (ROWS - 1)).fill(only ? 0 : 1);
  for (const { xMm, yMm, widthMm, heightMm } of only ?? []) {
    const cell = (mm: number) => (mm * FLAT_PX_PER_MM) / CELL_PX;
    const [left, right] = [Math.max(0, Math.floor(cell(xMm))), Math.min(CELLS, Math.ceil(cell(xMm + widthMm)))];
    const [top, bottom] = [Math.max(0, Math.floor(cell(yMm))), Math.min(ROWS - 1, Math.ceil(cell(yMm + heightMm)))];
    for (let row = top; row < bottom; row++) wanted.fill(1, row * CELLS + left, row * CELLS + right);
  }
  return wanted;
}

/** Places in the photo of the nodes, x and y in turn, row by row. */
function nodesOf(card: CardView): Float64Array {
  const nodes = new Float64Array(COLUMNS * ROWS * 2);
  for (let row = 0; row < ROWS; row++) {
    for (let column = 0; column < COLUMNS; column++) {
      const place = card.toPhoto((column * CELL_PX) / FLAT_PX_PER_MM, (row * CELL_PX) / FLAT_PX_PER_MM);
      nodes.set(place, (row * COLUMNS + column) * 2);
    }
  }
  return nodes;
}

/** Places in the photo of a cell's four nodes, x and y in turn: the two above, then the two below. */
function cornersOf(nodes: Float64Array, cell: number, corners: Float64Array): void {
  const above = (Math.floor(cell / CELLS) * COLUMNS + (cell % CELLS)) * 2;
  for (let i = 0; i < 4; i++) {
    corners[i] = nodes[above + i]!;
    corners[i + 4] = nodes[above + 2 * COLUMNS + i]!;
  }
}
