/** What a person should do for the camera to get a photo that can be read. One thing at a time. */
import { CARD_WIDTH_MM } from '../card/geometry.ts';
import type { CloseLook, Glimpse, SeenCard } from './glimpse.ts';

export type HintCode =
  | 'find-card'
  | 'whole-card'
  | 'nearer'
  | 'flatter'
  | 'more-light'
  | 'less-light'
  | 'lay-strip'
  | 'check-strip'
  | 'glare'
  | 'hold-still';

/** The card's larger share of the frame, across or down, from which there are pixels enough on every pad. */
export const MIN_FILL = 0.5;
/** Beyond this far ones of the card's parts lose too many pixels, and wet pads begin to mirror the sky. */
const MAX_TILT_DEGREES = 30;
/** Blur that the frame's own pixels don't explain; the reader refuses at 0.8. */
const MAX_BLUR_MM = 0.6;
/** What an edge across single pixels is measured as, px. */
const PIXEL_BLUR_PX = 0.65;

/**
 * @param close the latest close look at this card, if there was one
 * @returns the first thing in the way of a good photo; null when nothing is
 */
export function hintFor(glimpse: Glimpse, close: CloseLook | null, isSteady: boolean): HintCode | null {
  const { card } = glimpse;
  if (!card) return hintWithoutCard(glimpse);
  if (!isInFrame(glimpse, card)) return 'whole-card';
  if (fillOf(glimpse, card) < MIN_FILL) return 'nearer';
  if (card.tiltDegrees > MAX_TILT_DEGREES) return 'flatter';
  return (close && hintFromClose(close)) ?? (isSteady && !isBlurred(card) ? null : 'hold-still');
}

function hintWithoutCard({ frame, isPartSeen }: Glimpse): HintCode {
  if (frame === 'too-dark') return 'more-light';
  if (frame === 'blown-out') return 'less-light';
  return isPartSeen ? 'whole-card' : 'find-card';
}

function hintFromClose({ light, strip, glarePads }: CloseLook): HintCode | null {
  if (light !== null) return light === 'too-dark' ? 'more-light' : 'less-light';
  if (strip !== 'found') return strip === 'no-strip' ? 'lay-strip' : 'check-strip';
  return glarePads.length > 0 ? 'glare' : null;
}

function isInFrame({ widthPx, heightPx }: Glimpse, { corners }: SeenCard): boolean {
  return corners.every(([x, y]) => x >= 0 && y >= 0 && x <= widthPx && y <= heightPx);
}

/** The larger of the card's shares of the frame's width and height. */
export function fillOf({ widthPx, heightPx }: Glimpse, { corners }: SeenCard): number {
  const span = (values: readonly number[]) => Math.max(...values) - Math.min(...values);
  return Math.max(span(corners.map(([x]) => x)) / widthPx, span(corners.map(([, y]) => y)) / heightPx);
}

function isBlurred({ blurMm, pxPerMm }: SeenCard): boolean {
  return blurMm !== null && blurMm > Math.hypot(MAX_BLUR_MM, PIXEL_BLUR_PX / pxPerMm);
}

/** A card seen at a moment, milliseconds by any steady clock. */
export interface Sighting {
  readonly millis: number;
  readonly card: SeenCard;
}

/** The card has to rest for so long. */
const STEADY_MILLIS = 500;
/** 3 mm in half a second: over an exposure of 1/30 s that is 0.2 mm, a quarter of the blur that the reader refuses. */
const MAX_DRIFT_MM = 3;
/** Seen so often at least; a slow device takes longer for that. */
const MIN_SIGHTINGS = 3;
const MAX_AGE_MILLIS = 4000;

/** The sightings that still count once a further one, or none, has come; the card was lost where there is none. */
export function withSighting(sightings: readonly Sighting[], millis: number, card: SeenCard | null): Sighting[] {
  if (!card) return [];
  const latest = sightings.filter((one) => millis - one.millis < MAX_AGE_MILLIS);
  return [...latest, { millis, card }];
}

/** Has the card stayed where it is, against the camera, for long enough? */
export function isSteady(sightings: readonly Sighting[]): boolean {
  const last = sightings.at(-1);
  const rested = sightings.findLastIndex(({ millis }) => last!.millis - millis >= STEADY_MILLIS);
  const first = Math.min(rested, sightings.length - MIN_SIGHTINGS);
  if (!last || first < 0) return false;
  return sightings.slice(first).every(({ card }) => driftMm(card, last.card) <= MAX_DRIFT_MM);
}

/** While nothing moves every frame would tell the same, and a phone gets hot by the pool. */
const REST_MILLIS = 120;

/** How long the camera's frames may pass without a look, ms. */
export function restMillis(sightings: readonly Sighting[]): number {
  return isSteady(sightings) ? REST_MILLIS : 0;
}

/** The farthest that a corner has moved. */
function driftMm(one: SeenCard, other: SeenCard): number {
  const pxPerMm = Math.max(one.pxPerMm, 1 / CARD_WIDTH_MM);
  return Math.max(
    ...one.corners.map(([x, y], i) => Math.hypot(other.corners[i]![0] - x, other.corners[i]![1] - y) / pxPerMm),
  );
}
