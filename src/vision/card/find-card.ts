/** Finds the printed card in a photo. */
import { CARD_HEIGHT_MM, CARD_WIDTH_MM, FIDUCIALS } from '../../core/card/geometry.ts';
import { areaScale, type Point, project } from '../../core/card/homography.ts';
import type { BendModel } from '../../core/card/bend.ts';
import { isInside, type Photo } from '../pixels.ts';
import { assemble, type Placement, printedCorners, type Seen } from './assemble.ts';
import type { Binarisation } from './binarise.ts';
import { measureBlur } from './blur.ts';
import { lookForMissing, searchFiducials } from './fiducials.ts';
import { type Grey, shrinkFactor, shrinkToGrey } from './grey.ts';
import { mapCard } from './map-card.ts';
import type { Quad } from './quads.ts';

export interface FoundCard {
  /** Place in the photo, px, of a place on the card, mm. */
  toPhoto(xMm: number, yMm: number): Point;
  /** In the photo, at the card's middle. */
  readonly pxPerMm: number;
  /** The paper's corners in the photo: top left, top right, bottom right, bottom left of the card as printed. */
  readonly corners: Quad;
  /** The photo shows the card as a mirror does. */
  readonly mirrored: boolean;
  /** Three or four. */
  readonly fiducialsSeen: number;
  readonly marksSeen: number;
  /** Root mean square error of the inner marks, each left out of the fit in turn; null when none is seen. */
  readonly marksResidualMm: number | null;
  /** How the card had to be bent to fit. */
  readonly model: BendModel;
  /** Blur of the photo, standard deviation in the worse direction, mm on the card; null where it can't be measured. */
  readonly blurMm: number | null;
}

export type CardSearch =
  /** The card that shows most of itself, and any others. */
  | { readonly card: FoundCard; readonly others: readonly FoundCard[]; readonly reason: null }
  | { readonly card: null; readonly reason: 'no-card' | 'card-cut-off' };

interface Pass {
  /** Length of the long side of the picture that is searched, about. */
  readonly sidePx: number;
  readonly by: Binarisation;
}

/** Tried in order until a card shows enough fiducials; the cheapest and likeliest first. */
export const PASSES: readonly Pass[] = [
  { sidePx: 560, by: { method: 'local', window: 0.02, offset: 5, smoothPx: 0 } },
  { sidePx: 800, by: { method: 'local', window: 0.015, offset: 5, smoothPx: 0 } },
  { sidePx: 1500, by: { method: 'local', window: 0.025, offset: 8, smoothPx: 0 } },
  { sidePx: 1500, by: { method: 'local', window: 0.07, offset: 5, smoothPx: 1.4 } },
  { sidePx: 1500, by: { method: 'global' } },
  { sidePx: 2600, by: { method: 'local', window: 0.015, offset: 8, smoothPx: 0.7 } },
];

const MIN_SEEN = 3;
/** The card's cells would be smaller than a pixel. */
const MIN_SHORT_SIDE_PX = 48;

export function findCard(photo: Photo): CardSearch {
  if (Math.min(photo.width, photo.height) < MIN_SHORT_SIDE_PX) return { card: null, reason: 'no-card' };
  const { seen, placements } = searchPlacements(photo);
  const best = placements[0];
  if (!best) {
    const sure = seen.some((fiducial) => fiducial.wrongCells === 0);
    return { card: null, reason: sure ? 'card-cut-off' : 'no-card' };
  }
  if (best.seen.length < MIN_SEEN || leavesPhoto(photo, best)) return { card: null, reason: 'card-cut-off' };
  const others = placements.filter((one) => one !== best && one.seen.length >= MIN_SEEN && !leavesPhoto(photo, one));
  return { card: describe(photo, best), others: others.map((one) => describe(photo, one)), reason: null };
}

let room = new Uint8Array(0);

/** Of one photo after another. */
function greyRoom(bytes: number): Uint8Array {
  if (room.length < bytes) room = new Uint8Array(bytes);
  return room.subarray(0, bytes);
}

function searchPlacements(photo: Photo): { seen: Seen[]; placements: Placement[] } {
  let grey: Grey | null = null;
  let seen: Seen[] = [];
  let placements: Placement[] = [];
  for (const { sidePx, by } of PASSES) {
    const factor = shrinkFactor(photo, sidePx);
    if (grey?.factor !== factor) grey = shrinkToGrey(photo, factor, greyRoom);
    seen = merge(seen, searchFiducials(photo, grey, by));
    placements = assemble(seen);
    const best = placements[0];
    if (best && best.seen.length < FIDUCIALS.length) {
      seen = merge(seen, lookForMissing(photo, best));
      placements = assemble(seen);
    }
    if (placements[0] && placements[0].seen.length >= MIN_SEEN) break;
  }
  return { seen, placements };
}

/** Adds the fiducials not yet seen at their place. */
function merge(known: readonly Seen[], more: readonly Seen[]): Seen[] {
  const merged = [...known];
  for (const fiducial of more) {
    const [x, y] = fiducial.corners[0];
    const size = Math.hypot(fiducial.corners[2][0] - x, fiducial.corners[2][1] - y);
    const isKnown = merged.some(
      ({ index, corners }) =>
        index === fiducial.index && Math.hypot(corners[0][0] - x, corners[0][1] - y) < 0.25 * size,
    );
    if (!isKnown) merged.push(fiducial);
  }
  return merged;
}

/** A fiducial isn't seen, and it lies outside the photo. */
function leavesPhoto(photo: Photo, { seen, toPhoto }: Placement): boolean {
  return FIDUCIALS.some(
    (fiducial, index) =>
      !seen.some((one) => one.index === index) &&
      !printedCorners(fiducial).every((corner) => isInside(photo, project(toPhoto, corner))),
  );
}

function describe(photo: Photo, placement: Placement): FoundCard {
  const { map, marksSeen, marksResidualMm } = mapCard(photo, placement);
  return {
    toPhoto: map.toPhoto,
    pxPerMm: Math.sqrt(Math.abs(areaScale(placement.toPhoto, [CARD_WIDTH_MM / 2, CARD_HEIGHT_MM / 2]))),
    corners: [
      map.toPhoto(0, 0),
      map.toPhoto(CARD_WIDTH_MM, 0),
      map.toPhoto(CARD_WIDTH_MM, CARD_HEIGHT_MM),
      map.toPhoto(0, CARD_HEIGHT_MM),
    ],
    mirrored: placement.mirrored,
    fiducialsSeen: placement.seen.length,
    marksSeen,
    marksResidualMm,
    model: map.model,
    blurMm: measureBlur(photo, map.toPhoto),
  };
}
