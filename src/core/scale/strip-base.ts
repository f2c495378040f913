/** The colour of a strip's bare plastic, from a photo of the strip in the card's slot. */
import { cardPairs } from '../colour/anchors.ts';
import { fitColourMap } from '../colour/colour-map.ts';
import { linearToLab, type Triple } from '../colour/lab.ts';
import { fitNeutrals } from '../colour/neutrals.ts';
import type { CardSamples, PatchSample } from '../samples.ts';
import type { StripScale, Teaching } from './schema.ts';
import { median } from '../math/average.ts';

/** A strip in the slot before or after it was dipped. */
export interface StripSeen {
  readonly card: CardSamples;
  /** Bare plastic beside the pads. */
  readonly base: readonly PatchSample[];
}

/** Plastic darker than this, or more coloured, isn't white: it was taken for something else (CIELAB). */
const DARKEST = 70;
const MAX_CHROMA = 15;

/** The scale with the colour of its strip's plastic, in the light of its first teaching photo; as it was if unclear. */
export function withStripBase(scale: StripScale, seen: StripSeen): StripScale {
  const base = scale.teachings[0] ? stripBaseOf(seen, scale.teachings[0]) : null;
  return base ? { ...scale, strip: { ...scale.strip, base } } : scale;
}

/**
 * @param teaching the photo in whose light the colour is wanted; of the same printed card
 * @returns Lab D65 as that photo would show it; null where nothing like white plastic was seen
 * @throws RangeError when most greys of the card are clipped
 */
export function stripBaseOf({ card, base }: StripSeen, teaching: Teaching): [number, number, number] | null {
  const usable = base.filter(({ clipped }) => clipped < 0.1);
  if (usable.length === 0) return null;
  const correction = fitNeutrals(card, teaching.print);
  const linear = ({ rgb, xMm, yMm }: PatchSample) => correction.toLinear(rgb, xMm, yMm);
  const { anchors, neutrals } = cardPairs(card, teaching, linear);
  const map = fitColourMap(anchors, neutrals);
  const seen = usable.map((sample) => map.apply(linear(sample)));
  const lab = linearToLab([0, 1, 2].map((c) => median(seen.map((one) => one[c]!))) as unknown as Triple);
  if (lab[0] < DARKEST || Math.hypot(lab[1], lab[2]) > MAX_CHROMA) return null;
  return lab.map((value) => Number(value.toFixed(2))) as [number, number, number];
}
