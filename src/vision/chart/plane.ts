/** The card's plane, followed beyond the card: where a place in the photo lies on it, mm. */
import { CARD_HEIGHT_MM, CARD_WIDTH_MM } from '../../core/card/geometry.ts';
import { areaScale, fitHomography, invert, type Pair, type Point, project } from '../../core/card/homography.ts';
import type { CardView } from '../flatten.ts';

export interface Plane {
  /** mm on the card's axes; may lie outside the card. */
  toCard(place: Point): Point;
  toPhoto(place: Point): Point;
  /** Pixels to a millimetre about a place in the photo. */
  pxPerMmAt(place: Point): number;
}

const STEPS = 4;

/**
 * A plain homography over the whole card: the bends that follow curled paper on the card itself lead astray
 * beyond it.
 */
export function planeOf(card: Pick<CardView, 'toPhoto'>): Plane {
  const pairs: Pair[] = [];
  for (let i = 0; i <= STEPS; i++) {
    for (let j = 0; j <= STEPS; j++) {
      const from: Point = [(CARD_WIDTH_MM * i) / STEPS, (CARD_HEIGHT_MM * j) / STEPS];
      pairs.push({ from, to: card.toPhoto(from[0], from[1]) });
    }
  }
  const toPhoto = fitHomography(pairs);
  if (!toPhoto) throw new RangeError('the card has no plane');
  const toCard = invert(toPhoto);
  return {
    toCard: (place) => project(toCard, place),
    toPhoto: (place) => project(toPhoto, place),
    pxPerMmAt: (place) => Math.sqrt(Math.abs(areaScale(toPhoto, project(toCard, place)))),
  };
}
