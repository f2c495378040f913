/** The whole way from a photo to a reading, in order. */
import type { RefusalCode, RefusedOutcome } from '../core/reading/reading.ts';
import { readStrip } from '../core/reading/read-strip.ts';
import type { StripScale } from '../core/scale/schema.ts';
import { type OpenedCard, openInStages } from './open-card.ts';
import type { Photo, Pixels } from './pixels.ts';
import { atOnce, type InStages, type ReadResult, type ReadStage } from './read-result.ts';
import { findStrip } from './strip/find-strip.ts';
import { SHADOW_MM, stripQuad } from './strip/places.ts';
import { sampleStrip } from './strip/sample-strip.ts';

type StripSearch = ReturnType<typeof findStrip>;

/**
 * @param photo upright
 * @param onStage told before each stage begins
 * @param which of several cards, as 'two-cards' lists them, from 0; null to be asked
 * @param phoneSigma see `readStrip`
 */
export function readPhoto(
  photo: Photo,
  scale: StripScale,
  onStage: (stage: ReadStage) => void = () => undefined,
  which: number | null = null,
  phoneSigma = 0,
): ReadResult {
  return atOnce(readInStages(photo, scale, which, phoneSigma), onStage);
}

/** The same, stage by stage. */
export function* readInStages(
  photo: Photo,
  scale: StripScale,
  which: number | null = null,
  phoneSigma = 0,
): InStages<ReadResult> {
  const started = performance.now();
  let found: number | null = null;
  const looked: { strip?: StripSearch } = {};
  const inSlot = (flat: Pixels) => {
    found = performance.now();
    const strip = (looked.strip = findStrip(flat, scale));
    return strip.found ? stripQuad(strip.pose, scale, SHADOW_MM) : null;
  };
  const { opened, refused } = yield* openInStages(photo, { inSlot, which });
  found ??= performance.now();
  const { reading, seen } = opened
    ? yield* readCard(opened, looked.strip!, scale, phoneSigma)
    : refusedFor(refused.reason);
  return {
    reading: refused?.cards ? { ...refusedFor(refused.reason).reading, cards: refused.cards } : reading,
    seen,
    flat: opened ? opened.flat : refused.flat,
    millis: { find: found - started, read: performance.now() - found },
  };
}

function* readCard(
  { card, flat, samples }: OpenedCard,
  strip: StripSearch,
  scale: StripScale,
  phoneSigma: number,
): InStages<Pick<ReadResult, 'reading' | 'seen'>> {
  if (!strip.found) return refusedFor(strip.reason);
  const pads = sampleStrip(flat, strip.pose, scale);
  if (!pads) return refusedFor('no-strip');
  yield 'read';
  const reading = readStrip(samples, pads, scale, card.marksResidualMm ?? 0, phoneSigma);
  return { reading, seen: { card: samples, pads: pads.pads } };
}

function refusedFor(code: RefusalCode): { readonly reading: RefusedOutcome; readonly seen: null } {
  return { reading: { outcome: 'refused', reasons: [code], places: [] }, seen: null };
}
