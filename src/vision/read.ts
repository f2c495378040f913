/** The whole way from a photo to a reading, in order. */
import { READABLE_VERSIONS } from '../core/card/geometry.ts';
import { judgeExposure } from '../core/reading/judge.ts';
import type { CardOutline, Reading, RefusalCode, RefusedOutcome } from '../core/reading/reading.ts';
import { readStrip } from '../core/reading/read-strip.ts';
import type { StripScale } from '../core/scale/schema.ts';
import { readCodes } from './card-codes.ts';
import { findCard, type FoundCard } from './card/find-card.ts';
import { inOrder } from './card/order.ts';
import { isOnScreen } from './card/pattern.ts';
import type { Cv } from './engine/opencv.ts';
import { flatten } from './flatten.ts';
import type { Photo, Pixels } from './pixels.ts';
import type { ReadResult, ReadStage } from './read-result.ts';
import { sampleCard } from './sample.ts';
import { findStrip } from './strip/find-strip.ts';
import { stripQuad } from './strip/places.ts';
import { sampleStrip } from './strip/sample-strip.ts';
import { whyNothingFound } from './whole-picture.ts';

/** Blur beyond which the edges of pads and greys run into their middles, mm on the card. */
const MOST_BLUR_MM = 0.8;
/** Kept clear around the strip when the bare slot is sampled: its shadow, mm. */
const SHADOW_MM = 2;

/**
 * @param photo upright
 * @param onStage told before each stage begins
 * @param which of several cards, as 'two-cards' lists them, from 0; null to be asked
 */
export function readPhoto(
  cv: Cv,
  photo: Photo,
  scale: StripScale,
  onStage: (stage: ReadStage) => void = () => undefined,
  which: number | null = null,
): ReadResult {
  const started = performance.now();
  let found = started;
  const finish = (reading: Reading, flat: Pixels | null): ReadResult => {
    const ended = performance.now();
    return { reading, flat, millis: { find: found - started, read: ended - found } };
  };

  onStage('find-card');
  const search = findCard(cv, photo);
  if (!search.card) {
    found = performance.now();
    return finish(refused(whyNothingFound(photo) ?? search.reason), null);
  }
  const cards = inOrder([search.card, ...search.others]);
  const card = cards.length === 1 ? cards[0] : cards[which ?? -1];
  if (!card) {
    found = performance.now();
    return finish({ ...refused('two-cards'), cards: cards.map((one) => outlineIn(photo, one)) }, null);
  }
  if (isOnScreen(photo, card.toPhoto)) {
    found = performance.now();
    return finish(refused('on-a-screen'), null);
  }
  onStage('flatten');
  const flat = flatten(photo, card);
  found = performance.now();
  return finish(readFlat(flat, card, scale, onStage), flat);
}

function readFlat(flat: Pixels, card: FoundCard, scale: StripScale, onStage: (stage: ReadStage) => void): Reading {
  const codes = readCodes(flat);
  if (codes.version !== null && !READABLE_VERSIONS.includes(codes.version)) return refused('card-other-version');
  if (card.blurMm === null || card.blurMm > MOST_BLUR_MM) return refused('blurred');
  onStage('find-strip');
  const strip = findStrip(flat, scale);
  const keepClear = strip.found ? stripQuad(strip.pose, scale, SHADOW_MM) : null;
  const samples = sampleCard(flat, codes, keepClear);
  const exposure = judgeExposure(samples);
  if (exposure) return refused(exposure);
  if (!strip.found) return refused(strip.reason);
  const pads = sampleStrip(flat, strip.pose, scale);
  if (!pads) return refused('no-strip');
  onStage('read');
  return readStrip(samples, pads, scale, card.marksResidualMm ?? 0);
}

function outlineIn({ width, height }: Photo, { corners }: FoundCard): CardOutline {
  return corners.map(([x, y]) => [x / width, y / height] as const);
}

function refused(code: RefusalCode): RefusedOutcome {
  return { outcome: 'refused', reasons: [code], places: [] };
}
