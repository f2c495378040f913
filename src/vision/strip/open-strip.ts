/** A photo of a strip that no scale describes yet, in the card's slot. */
import type { RefusalCode } from '../../core/reading/reading.ts';
import type { CardSamples } from '../../core/samples.ts';
import { openCard } from '../open-card.ts';
import type { Pixels } from '../pixels.ts';
import { anythingInSlot, type ProposedStrip, proposeStrip } from './propose-strip.ts';

export interface StripFound {
  readonly samples: CardSamples;
  /** The flattened card. */
  readonly flat: Pixels;
  readonly strip: ProposedStrip;
}

export type StripOpening =
  { readonly found: StripFound; readonly reason: null } | { readonly found: null; readonly reason: RefusalCode };

/** @param padCount how many pads, evenly spaced, the strip has */
export function openStrip(photo: Pixels, padCount: number): StripOpening {
  const { opened, refused } = openCard(photo, { inSlot: anythingInSlot });
  if (!opened) return { found: null, reason: refused.reason };
  const { flat, samples } = opened;
  const strip = proposeStrip(flat, padCount);
  return strip ? { found: { samples, flat, strip }, reason: null } : { found: null, reason: 'no-strip' };
}
