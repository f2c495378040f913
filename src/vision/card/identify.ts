/** Which fiducial a four-sided shape is, if any, which way up, and whether it is seen mirrored. */
import { FIDUCIAL_CELL_MM, FIDUCIAL_FRAME_MM, FIDUCIAL_SIZE_MM, FIDUCIALS } from '../../core/card/geometry.ts';
import { fromUnitSquare, type Homography, type Point, project } from '../../core/card/homography.ts';
import type { Quad } from './quads.ts';
import { mean } from '../../core/math/average.ts';

export interface Identity {
  /** Position in FIDUCIALS. */
  readonly index: number;
  /** Its corners as printed: top left, top right, bottom right, bottom left. */
  readonly corners: Quad;
  readonly mirrored: boolean;
  /** Cells that differ from the printed code. */
  readonly wrongCells: number;
}

/** Brightness at a place, 0-255. */
export type Brightness = (x: number, y: number) => number;

/** Any two codes, turned or mirrored, differ in six cells or more: with one wrong the answer is still sure. */
const MAX_WRONG = 1;
/** Least difference between paper and ink, levels. */
const MIN_CONTRAST = 14;

const CELLS = 4;
const SQUARE: Quad = [
  [0, 0],
  [1, 0],
  [1, 1],
  [0, 1],
];

interface Pattern {
  readonly index: number;
  readonly mirrored: boolean;
  /** For each printed corner, which corner of the seen shape it is. */
  readonly corner: readonly number[];
  readonly bits: number;
}

const PATTERNS: readonly Pattern[] = FIDUCIALS.flatMap((fiducial, index) =>
  [false, true].flatMap((mirrored) =>
    [0, 1, 2, 3].map((turn): Pattern => {
      const corner = [0, 1, 2, 3].map((i) => (mirrored ? turn - i + 4 : turn + i) % 4);
      return { index, mirrored, corner, bits: seenBits(fiducial.cells, corner) };
    }),
  ),
);

/** The code as the cells of the seen shape show it, the first cell in the lowest bit. */
function seenBits(cells: readonly string[], corner: readonly number[]): number {
  const [origin, across, , down] = corner.map((i) => SQUARE[i]!) as unknown as Quad;
  let bits = 0;
  cells.forEach((line, row) =>
    [...line].forEach((cell, column) => {
      if (cell !== '#') return;
      const u = (column + 0.5) / CELLS;
      const v = (row + 0.5) / CELLS;
      const x = origin[0] + u * (across[0] - origin[0]) + v * (down[0] - origin[0]);
      const y = origin[1] + u * (across[1] - origin[1]) + v * (down[1] - origin[1]);
      bits |= 1 << (Math.floor(y * CELLS) * CELLS + Math.floor(x * CELLS));
    }),
  );
  return bits;
}

/**
 * @param quad in the plane of `brightness`
 * @returns null when it isn't a dark frame on something brighter, or its cells are no fiducial's
 */
export function identify(quad: Quad, brightness: Brightness, maxWrong = MAX_WRONG): Identity | null {
  const toPicture = fromUnitSquare(quad);
  const threshold = inkThreshold(toPicture, brightness);
  if (threshold === null) return null;
  const bits = readCells(toPicture, brightness, threshold);
  let best: Identity | null = null;
  for (const pattern of PATTERNS) {
    const wrongCells = countBits(pattern.bits ^ bits);
    if (wrongCells > maxWrong || (best && wrongCells >= best.wrongCells)) continue;
    const corners = pattern.corner.map((i) => quad[i]!) as unknown as Quad;
    best = { index: pattern.index, mirrored: pattern.mirrored, corners, wrongCells };
  }
  return best;
}

const FRAME_MIDDLE = FIDUCIAL_FRAME_MM / 2 / FIDUCIAL_SIZE_MM;
const OUTSIDE = 1.2 / FIDUCIAL_SIZE_MM;
/** Share of the places on the frame, and beside it, that must be dark and bright. */
const MIN_FRAME = 0.8;

/** @returns the brightness halfway between frame and surrounding paper; null when the frame isn't dark all round */
function inkThreshold(toPicture: Homography, brightness: Brightness): number | null {
  const ink = ring(FRAME_MIDDLE).map((place) => brightness(...project(toPicture, place)));
  const paper = ring(-OUTSIDE).map((place) => brightness(...project(toPicture, place)));
  const threshold = (mean(ink) + mean(paper)) / 2;
  if (mean(paper) - mean(ink) < MIN_CONTRAST) return null;
  const dark = ink.filter((value) => value < threshold).length / ink.length;
  const bright = paper.filter((value) => value > threshold).length / paper.length;
  return dark >= MIN_FRAME && bright >= MIN_FRAME ? threshold : null;
}

/** Sixteen places around the unit square, `inset` inside its sides. */
function ring(inset: number): Point[] {
  const [low, high] = [inset, 1 - inset];
  return [0.14, 0.38, 0.62, 0.86].flatMap((t): Point[] => [
    [t, low],
    [high, t],
    [t, high],
    [low, t],
  ]);
}

function readCells(toPicture: Homography, brightness: Brightness, threshold: number): number {
  const spread = 0.22 * FIDUCIAL_CELL_MM;
  let bits = 0;
  for (let row = 0; row < CELLS; row++) {
    for (let column = 0; column < CELLS; column++) {
      const x = FIDUCIAL_FRAME_MM + (column + 0.5) * FIDUCIAL_CELL_MM;
      const y = FIDUCIAL_FRAME_MM + (row + 0.5) * FIDUCIAL_CELL_MM;
      let sum = 0;
      for (const [dx, dy] of CROSS) {
        const place: Point = [(x + dx * spread) / FIDUCIAL_SIZE_MM, (y + dy * spread) / FIDUCIAL_SIZE_MM];
        sum += brightness(...project(toPicture, place));
      }
      if (sum / CROSS.length < threshold) bits |= 1 << (row * CELLS + column);
    }
  }
  return bits;
}

const CROSS = [
  [0, 0],
  [-1, -1],
  [1, -1],
  [1, 1],
  [-1, 1],
] as const;

function countBits(value: number): number {
  let rest = value;
  let count = 0;
  for (; rest !== 0; rest &= rest - 1) count++;
  return count;
}
