/** The first half of every reading: a photo's card, found, flattened and sampled, or the reason why not. */
import { READABLE_VERSIONS } from '../core/card/geometry.ts';
import { judgeExposure } from '../core/reading/judge.ts';
import type { RefusalCode } from '../core/reading/reading.ts';
import type { CardSamples } from '../core/samples.ts';
import { readCodes } from './card-codes.ts';
import { findCard, type FoundCard } from './card/find-card.ts';
import { isOnScreen } from './card/pattern.ts';
import type { Cv } from './engine/opencv.ts';
import { flatten } from './flatten.ts';
import type { Pixels } from './pixels.ts';
import { sampleCard } from './sample.ts';
import { anythingInSlot } from './strip/propose-strip.ts';
import { whyNothingFound } from './whole-picture.ts';

/** Blur beyond which the edges of greys run into their middles, mm on the card. */
const MOST_BLUR_MM = 0.8;
/** Kept clear around whatever lies in the slot: its shadow, mm. */
const SHADOW_MM = 2;

export interface OpenedCard {
  readonly card: FoundCard;
  readonly flat: Pixels;
  readonly samples: CardSamples;
}

export type CardOpening =
  { readonly opened: OpenedCard; readonly reason: null } | { readonly opened: null; readonly reason: RefusalCode };

/** @param pixels the photo, upright; the slot may be empty or hold a strip that no scale describes */
export function openCard(cv: Cv, pixels: Pixels): CardOpening {
  const search = findCard(cv, pixels);
  if (!search.card) return refused(whyNothingFound(pixels) ?? search.reason);
  if (search.others.length > 0) return refused('two-cards');
  const { card } = search;
  if (isOnScreen(pixels, card.toPhoto)) return refused('on-a-screen');
  const flat = flatten(pixels, card);
  const codes = readCodes(flat);
  if (codes.version !== null && !READABLE_VERSIONS.includes(codes.version)) return refused('card-other-version');
  if (card.blurMm === null || card.blurMm > MOST_BLUR_MM) return refused('blurred');
  const samples = sampleCard(flat, codes, anythingInSlot(flat, SHADOW_MM));
  const exposure = judgeExposure(samples);
  return exposure ? refused(exposure) : { opened: { card, flat, samples }, reason: null };
}

function refused(reason: RefusalCode): CardOpening {
  return { opened: null, reason };
}
