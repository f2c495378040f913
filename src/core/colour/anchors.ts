/** The card's printed patches in this photo beside the same patches in another. */
import type { Triple } from './lab.ts';
import type { CardSamples, PatchSample } from '../samples.ts';

/** A printed patch in both photos, linear sRGB after the greys. */
export interface Pair {
  readonly from: Triple;
  readonly to: Triple;
}

export interface IdentifiedPair extends Pair {
  readonly id: string;
}

/** Share of clipped pixels above which a patch tells nothing. */
const MAX_CLIPPED = 0.1;
/** Patches that are seen unclipped here and known from another photo, by their ids. */
export function pairsWith(
  samples: readonly PatchSample[],
  known: Readonly<Record<string, Triple>>,
  linear: (sample: PatchSample) => Triple,
): IdentifiedPair[] {
  return samples.flatMap((sample) => {
    const to = known[sample.id];
    return to && sample.clipped < MAX_CLIPPED ? [{ id: sample.id, from: linear(sample), to }] : [];
  });
}

/** A card's patches in this photo beside the same patches in another. */
export function cardPairs(
  card: CardSamples,
  known: { readonly anchors: Readonly<Record<string, Triple>>; readonly neutrals: Readonly<Record<string, Triple>> },
  linear: (sample: PatchSample) => Triple,
): { anchors: IdentifiedPair[]; neutrals: IdentifiedPair[] } {
  return {
    anchors: pairsWith(card.anchors, known.anchors, linear),
    neutrals: pairsWith(card.neutrals, known.neutrals, linear),
  };
}
