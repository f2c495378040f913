/**
 * The printed reference card, in millimetres from its top left corner.
 *
 * This is the one description of the card: printing draws it, finding looks for
 * it. x runs to the right, y downwards; the card is landscape, about A6.
 */

/** An axis-aligned rectangle on the card; (xMm, yMm) is its top left corner. */
export interface Rect {
  readonly id: string;
  readonly xMm: number;
  readonly yMm: number;
  readonly widthMm: number;
  readonly heightMm: number;
}

/** A grey patch printed in black ink alone; `ink` is the nominal coverage, 0 (bare paper) to 1 (solid). */
export interface Neutral extends Rect {
  readonly ink: number;
}

/** A colour patch. `srgb` is what is sent to the printer; what comes out is not known and need not be. */
export interface Anchor extends Rect {
  readonly srgb: readonly [number, number, number];
}

/**
 * A corner fiducial: a black frame around four rows of four cells.
 * `cells[row]` is a string of '#' (black) and '.' (paper), upright as printed.
 */
export interface Fiducial extends Rect {
  readonly cells: readonly [string, string, string, string];
}

/** A small black disc that checks the flattening between the corners. */
export interface Mark {
  readonly id: string;
  readonly xMm: number;
  readonly yMm: number;
  readonly diameterMm: number;
}

/** Increase when any printed position, code or ink changes. 1 to 31. Version 2 carries the print's own mark. */
export const CARD_VERSION = 2;

/** Versions whose patches lie where this file says. */
export const READABLE_VERSIONS: readonly number[] = [1, 2];

export type CardVariant = 'colour' | 'black';

export const CARD_WIDTH_MM = 148;
export const CARD_HEIGHT_MM = 105;

export const FIDUCIAL_SIZE_MM = 14;
export const FIDUCIAL_FRAME_MM = 2;
export const FIDUCIAL_CELL_MM = 2.5;

/**
 * Each code differs in at least six of its sixteen cells from every other code
 * and from itself, in any rotation and mirrored, so that one fiducial alone
 * tells which corner it is, which way up, and whether it is seen mirrored.
 */
export const FIDUCIALS: readonly Fiducial[] = [
  fiducial('top-left', 3, 3, ['.#.#', '..##', '....', '.###']),
  fiducial('top-right', 131, 3, ['.#..', '##.#', '.##.', '###.']),
  fiducial('bottom-left', 3, 88, ['##.#', '...#', '#.#.', '###.']),
  fiducial('bottom-right', 131, 88, ['...#', '.#..', '##.#', '..##']),
];

/** Where the strip lies; printed as a mid grey in black ink. */
export const SLOT: Neutral = { id: 'slot', xMm: 16, yMm: 43.5, widthMm: 116, heightMm: 18, ink: 0.45 };

const TOP_INKS = [0, 0.55, 0.15, 0.85, 0.3, 1, 0.42, 0.7] as const;
const BOTTOM_INKS = [0.7, 0.42, 1, 0.3, 0.85, 0.15, 0.55, 0] as const;

/** Two rows of greys, one on each side of the slot, in opposite order so that shading and ink are told apart. */
export const NEUTRALS: readonly Neutral[] = [
  ...TOP_INKS.map((ink, i) => ({ ...row('n', 't', i, 16.6, 14.5, 25, 13.3, 12.5), ink })),
  ...BOTTOM_INKS.map((ink, i) => ({ ...row('n', 'b', i, 16.6, 14.5, 67.5, 13.3, 12.5), ink })),
];

/* In CIE LCh under D65, twelve pale ones at every 30 degrees of hue (L 72-88, C 20-34) and six stronger
   ones at L 45-70, C 31-60; the order keeps neighbours in hue apart on the card. */
const TOP_ANCHORS = ['#f8bccd', '#c5d1a5', '#98d4f2', '#d1b97c', '#e3a9db', '#579153', '#c75862', '#a6eadc', '#1977b5'];
const BOTTOM_ANCHORS = [
  '#86b3ee',
  '#d1a538',
  '#ed9b93',
  '#81be90',
  '#935397',
  '#ffd4b9',
  '#52ccda',
  '#e0d8ff',
  '#008a8d',
];

export const ANCHORS: readonly Anchor[] = [
  ...TOP_ANCHORS.map((hex, i) => ({ ...row('a', 't', i, 20.6, 12, 4.5, 10.8, 12), srgb: hexToSrgb(hex) })),
  ...BOTTOM_ANCHORS.map((hex, i) => ({ ...row('a', 'b', i, 20.6, 12, 88.5, 10.8, 12), srgb: hexToSrgb(hex) })),
];

export const MARKS: readonly Mark[] = [
  [19.5, 21],
  [74, 21],
  [128.5, 21],
  [10, 25],
  [138, 25],
  [12.5, 52.5],
  [138, 52.5],
  [10, 80],
  [138, 80],
  [19.5, 84],
  [76, 84],
  [128.5, 84],
].map(([xMm, yMm], i) => ({ id: `m${i + 1}`, xMm: xMm!, yMm: yMm!, diameterMm: 2.4 }));

/** A printed length to check against a ruler. */
export const CHECK_RULE = { xMm: 23, yMm: 82, lengthMm: 50 } as const;

/** Bare paper beside both ends of the slot and above and below it: extra places to see the paper itself. */
export const PAPER_PATCHES: readonly Rect[] = [
  { id: 'p1', xMm: 19, yMm: 38.3, widthMm: 20, heightMm: 1.6 },
  { id: 'p2', xMm: 64, yMm: 38.3, widthMm: 20, heightMm: 1.6 },
  { id: 'p3', xMm: 109, yMm: 38.3, widthMm: 20, heightMm: 1.6 },
  { id: 'p4', xMm: 19, yMm: 65.2, widthMm: 20, heightMm: 1.6 },
  { id: 'p5', xMm: 64, yMm: 65.2, widthMm: 20, heightMm: 1.6 },
  { id: 'p6', xMm: 109, yMm: 65.2, widthMm: 20, heightMm: 1.6 },
];

/** Ten cells, top to bottom, left of the slot: variant, five bits of version (high bit first), four of check. */
export const VERSION_CELLS: readonly Rect[] = Array.from({ length: 10 }, (_, i) => ({
  id: `v${i}`,
  xMm: 4,
  yMm: 37.5 + 3 * i,
  widthMm: 4,
  heightMm: 3,
}));

/** The ten bits of the version code; true is a black cell. */
export function versionBits(version: number, variant: CardVariant): boolean[] {
  const data = ((variant === 'black' ? 1 : 0) << 5) | version;
  const word = (data << 4) | checkBits(data);
  return Array.from({ length: 10 }, (_, i) => ((word >> (9 - i)) & 1) === 1);
}

/** The remainder on division by x^4 + x + 1, which tells any one or two wrong cells of the ten. */
function checkBits(data: number): number {
  let rest = data << 4;
  for (let bit = 9; bit >= 4; bit--) if ((rest >> bit) & 1) rest ^= 0b10011 << (bit - 4);
  return rest;
}

/** Reads the version code back; null when the check bits disagree. */
export function parseVersionBits(bits: readonly boolean[]): { version: number; variant: CardVariant } | null {
  const word = bits.reduce((value, bit) => value * 2 + (bit ? 1 : 0), 0);
  const data = word >> 4;
  const version = data & 31;
  const variant: CardVariant = data >> 5 ? 'black' : 'colour';
  const expected = versionBits(version, variant);
  return bits.length === 10 && version > 0 && expected.every((bit, i) => bit === bits[i]) ? { version, variant } : null;
}

function fiducial(id: string, xMm: number, yMm: number, cells: [string, string, string, string]): Fiducial {
  return { id, xMm, yMm, widthMm: FIDUCIAL_SIZE_MM, heightMm: FIDUCIAL_SIZE_MM, cells };
}

function row(
  kind: string,
  side: string,
  i: number,
  x0Mm: number,
  pitchMm: number,
  yMm: number,
  widthMm: number,
  heightMm: number,
): Rect {
  return { id: `${kind}${side}${i + 1}`, xMm: round(x0Mm + pitchMm * i), yMm, widthMm, heightMm };
}

function round(mm: number): number {
  return Math.round(mm * 100) / 100;
}

function hexToSrgb(hex: string): [number, number, number] {
  const value = parseInt(hex.slice(1), 16);
  return [value >> 16, (value >> 8) & 255, value & 255].map((byte) => byte / 255) as [number, number, number];
}
