/** Which fiducials in a photo belong to one card, and where that card lies. */
import { CARD_HEIGHT_MM, CARD_WIDTH_MM, type Fiducial, FIDUCIALS } from '../../core/card/geometry.ts';
import {
  areaScale,
  fitHomography,
  type Homography,
  type Pair,
  type Point,
  project,
} from '../../core/card/homography.ts';
import type { Quad } from './quads.ts';

/** A fiducial seen in the photo. */
export interface Seen {
  /** Position in FIDUCIALS. */
  readonly index: number;
  /** In the photo, in the order printed: top left, top right, bottom right, bottom left. */
  readonly corners: Quad;
  readonly mirrored: boolean;
  readonly wrongCells: number;
  /** null where the edges could not be followed and the corners are only rough. */
  readonly blurMm: number | null;
}

export interface Placement {
  /** From the card, mm, to the photo, px. */
  readonly toPhoto: Homography;
  /** One to four, no two of one kind. */
  readonly seen: readonly Seen[];
  readonly mirrored: boolean;
}

/** How far corners may lie from where a flat card would have them: paper curls, lenses bend. */
const GUESS_MM = 12;
const FIT_MM = 2.5;

/** @returns the cards in the photo that show two or more fiducials, the most certain first; none shares a fiducial */
export function assemble(seen: readonly Seen[]): Placement[] {
  const candidates: { placement: Placement; errorMm: number }[] = [];
  const inWhole = new Set<Seen>();
  for (let i = 0; i < seen.length; i++) {
    for (let j = i + 1; j < seen.length; j++) {
      // Another pair of a whole card would grow to the same one.
      if (inWhole.has(seen[i]!) && inWhole.has(seen[j]!)) continue;
      const found = growFrom(seen[i]!, seen[j]!, seen);
      if (!found) continue;
      candidates.push(found);
      if (found.placement.seen.length === FIDUCIALS.length) found.placement.seen.forEach((one) => inWhole.add(one));
    }
  }
  candidates.sort(
    (one, other) => other.placement.seen.length - one.placement.seen.length || one.errorMm - other.errorMm,
  );
  const taken = new Set<Seen>();
  return candidates.flatMap(({ placement }) => {
    if (placement.seen.some((fiducial) => taken.has(fiducial))) return [];
    placement.seen.forEach((fiducial) => taken.add(fiducial));
    return [placement];
  });
}

function growFrom(one: Seen, other: Seen, all: readonly Seen[]): { placement: Placement; errorMm: number } | null {
  if (one.index === other.index || one.mirrored !== other.mirrored) return null;
  let placement = place([one, other]);
  if (!placement || misfitMm(placement) > FIT_MM) return null;
  for (let index = 0; index < FIDUCIALS.length; index++) {
    if (placement.seen.some((fiducial) => fiducial.index === index)) continue;
    const guess: Placement = placement;
    const nearest = all
      .filter((fiducial) => fiducial.index === index && fiducial.mirrored === one.mirrored)
      .map((fiducial) => ({ fiducial, offMm: offMm(guess, fiducial) }))
      .sort((a, b) => a.offMm - b.offMm)[0];
    if (!nearest || nearest.offMm > GUESS_MM) continue;
    const grown = place([...placement.seen, nearest.fiducial]);
    if (grown && misfitMm(grown) <= FIT_MM) placement = grown;
  }
  return { placement, errorMm: misfitMm(placement) };
}

/** @returns null when no card facing the camera fits */
export function place(seen: readonly Seen[]): Placement | null {
  const toPhoto = fitHomography(seen.flatMap(pairsOf));
  if (!toPhoto) return null;
  const mirrored = seen[0]!.mirrored;
  const outline: Point[] = [
    [0, 0],
    [CARD_WIDTH_MM, 0],
    [CARD_WIDTH_MM, CARD_HEIGHT_MM],
    [0, CARD_HEIGHT_MM],
  ];
  const w = ([x, y]: Point) => toPhoto[6] * x + toPhoto[7] * y + toPhoto[8];
  const facing = outline.every(
    (corner) => w(corner) * w(outline[0]!) > 0 && areaScale(toPhoto, corner) < 0 === mirrored,
  );
  return facing ? { toPhoto, seen, mirrored } : null;
}

/** The corners as printed, mm: top left, top right, bottom right, bottom left. */
export function printedCorners({ xMm, yMm, widthMm, heightMm }: Fiducial): Quad {
  return [
    [xMm, yMm],
    [xMm + widthMm, yMm],
    [xMm + widthMm, yMm + heightMm],
    [xMm, yMm + heightMm],
  ];
}

export function pairsOf({ index, corners }: Seen): Pair[] {
  return printedCorners(FIDUCIALS[index]!).map((from, i) => ({ from, to: corners[i]! }));
}

/** Root mean square of the corners' distances from their places, mm on the card. */
function misfitMm(placement: Placement): number {
  const offs = placement.seen.map((fiducial) => offMm(placement, fiducial));
  return Math.sqrt(offs.reduce((sum, off) => sum + off * off, 0) / offs.length);
}

function offMm({ toPhoto }: Placement, fiducial: Seen): number {
  const squares = pairsOf(fiducial).map(({ from, to }) => {
    const [x, y] = project(toPhoto, from);
    return ((x - to[0]) ** 2 + (y - to[1]) ** 2) / Math.abs(areaScale(toPhoto, from));
  });
  return Math.sqrt(squares.reduce((sum, square) => sum + square, 0) / squares.length);
}
