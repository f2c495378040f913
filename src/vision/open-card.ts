/**
 * The first half of everything that is done with a photo, reading or teaching: its card, found, flattened and sampled, or
 * the reason why not. A look at the live preview finds its card faster (`track/look.ts`) and samples it here.
 */
import { READABLE_VERSIONS } from '../core/card/geometry.ts';
import { judgeExposure } from '../core/reading/judge.ts';
import type { CardOutline, RefusalCode } from '../core/reading/reading.ts';
import type { CardSamples } from '../core/samples.ts';
import { type CardCodes, readCodes } from './card-codes.ts';
import { findCard, type FoundCard } from './card/find-card.ts';
import { inOrder } from './card/order.ts';
import { isOnScreen } from './card/pattern.ts';
import { flatten } from './flatten.ts';
import type { Outline } from './patch.ts';
import type { Photo, Pixels } from './pixels.ts';
import { atOnce, type InStages } from './read-result.ts';
import { sampleCard } from './sample.ts';
import { whyNothingFound } from './whole-picture.ts';

/** Blur beyond which the edges of pads and greys run into their middles, mm on the card. */
const MAX_BLUR_MM = 0.8;

/** What lies in the slot, with its shadow: not to be taken for the slot's own grey. Null where nothing does. */
export type InSlot = Outline | null;

export interface OpenedCard {
  readonly card: FoundCard;
  readonly flat: Pixels;
  readonly samples: CardSamples;
}

export interface RefusedCard {
  readonly reason: RefusalCode;
  /** The flattened card, where it came that far. */
  readonly flat: Pixels | null;
  /** With 'two-cards': where they are. */
  readonly cards: readonly CardOutline[] | null;
}

export type CardOpening =
  { readonly opened: OpenedCard; readonly refused: null } | { readonly opened: null; readonly refused: RefusedCard };

export interface OpenOptions {
  /** Looks for what lies in the slot of the flattened card. */
  readonly inSlot: (flat: Pixels) => InSlot;
  /** Which of several cards, as 'two-cards' lists them, from 0; null to be asked. */
  readonly which?: number | null;
}

/** @param photo upright */
export function openCard(photo: Photo, options: OpenOptions): CardOpening {
  return atOnce(openInStages(photo, options));
}

/** The same, stage by stage. */
export function* openInStages(photo: Photo, { inSlot, which = null }: OpenOptions): InStages<CardOpening> {
  yield 'find-card';
  const search = findCard(photo);
  if (!search.card) return refuse(whyNothingFound(photo) ?? search.reason);
  const cards = inOrder([search.card, ...search.others]);
  const card = cards.length === 1 ? cards[0] : cards[which ?? -1];
  if (!card) {
    return refuse(
      'two-cards',
      null,
      cards.map((one) => outlineIn(photo, one)),
    );
  }
  if (isOnScreen(photo, card.toPhoto)) return refuse('on-a-screen');
  yield 'flatten';
  const flat = flatten(photo, card);
  const codes = readCodes(flat);
  if (codes.version !== null && !READABLE_VERSIONS.includes(codes.version)) return refuse('card-other-version', flat);
  if (card.blurMm === null || card.blurMm > MAX_BLUR_MM) {
    // In the dark edges drown in noise: more light helps, a steadier hand doesn't.
    const isDark = sampleFlat(flat, codes, null).exposure === 'too-dark';
    return refuse(isDark ? 'too-dark' : 'blurred', flat);
  }
  yield 'find-strip';
  const { samples, exposure } = sampleFlat(flat, codes, inSlot(flat));
  return exposure ? refuse(exposure, flat) : { opened: { card, flat, samples }, refused: null };
}

/** A flattened card's patches, and whether light and exposure allow to go by them. */
export function sampleFlat(flat: Pixels, codes: CardCodes, inSlot: InSlot) {
  const samples = sampleCard(flat, codes, inSlot);
  return { samples, exposure: judgeExposure(samples) };
}

function refuse(
  reason: RefusalCode,
  flat: Pixels | null = null,
  cards: readonly CardOutline[] | null = null,
): CardOpening {
  return { opened: null, refused: { reason, flat, cards } };
}

function outlineIn({ width, height }: Photo, { corners }: FoundCard): CardOutline {
  return corners.map(([x, y]) => [x / width, y / height] as const);
}
