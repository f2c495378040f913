/**
 * A scale's way to another print of the card, where its chart is no longer at hand: one photo of a strip of known values beside
 * the new print.
 *
 * What the chart would have looked like in that photo is told by the known pads, by the greys, and less surely by the new
 * print's patches, which are like the old one's: the same smooth map that leads a reading leads the chart's blocks here.
 */
import { cardPairs, type Pair } from '../colour/anchors.ts';
import { fitColourMap, OTHER_PRINT_SIGMA } from '../colour/colour-map.ts';
import { labToLinear, linearToLab, type Triple } from '../colour/lab.ts';
import { fitNeutrals } from '../colour/neutrals.ts';
import type { PadQuantity } from '../measurement/quantities.ts';
import type { CardSamples, PatchSample } from '../samples.ts';
import { curveThrough } from './curve.ts';
import { blocksIn, withLearnt } from './learn.ts';
import type { StripScale } from './schema.ts';
import { teachingOf } from './teach.ts';

export interface KnownStrip {
  /** The owner's word for the light. */
  readonly light: string;
  readonly card: CardSamples;
  /** In the scale's order. */
  readonly pads: readonly PatchSample[];
  /** In the pads' units; those left out are not known. */
  readonly values: Partial<Record<PadQuantity, number>>;
}

/** One pad alone could not tell a stain from a print. */
export const MIN_KNOWN_PADS = 2;

export type CarriedPrint =
  | { readonly scale: StripScale; readonly reason: null }
  | { readonly scale: null; readonly reason: 'never-taught' | 'too-few-values' };

/** @throws RangeError when most greys of the card are clipped */
export function withPrintOf(scale: StripScale, { light, card, pads, values }: KnownStrip): CarriedPrint {
  const [teaching] = scale.teachings;
  if (!teaching) return { scale: null, reason: 'never-taught' };
  const { toLinear, print } = fitNeutrals(card);
  const linear = ({ rgb, xMm, yMm }: PatchSample) => toLinear(rgb, xMm, yMm);
  const known = scale.pads.flatMap((pad, k): Pair[] => {
    const value = values[pad.parameter];
    if (value === undefined || value < pad.blocks[0]!.value || value > pad.blocks.at(-1)!.value) return [];
    const blocks = withLearnt(scale, pad.parameter, blocksIn(scale, k, 0), 0);
    const curve = curveThrough({ ...pad, blocks });
    return [{ from: labToLinear(curve.labAt(curve.positionOf(value))), to: linear(pads[k]!) }];
  });
  if (known.length < MIN_KNOWN_PADS) return { scale: null, reason: 'too-few-values' };
  const greys = card.neutrals.map(linear).map((grey): Pair => ({ from: grey, to: grey }));
  // From the old print's colours to the new one's.
  const patches = cardPairs(card, teaching, linear).anchors.map(({ from, to }): Pair => ({ from: to, to: from }));
  const map = fitColourMap(patches, [...greys, ...known], OTHER_PRINT_SIGMA);
  const linears = teaching.blocks.flat().map((lab) => labToLinear(lab));
  const carried = teachingOf({ light, card, blocks: [] }, print);
  const blocks = teaching.blocks.map((row) => row.map((lab) => rounded(linearToLab(map.apply(labToLinear(lab))))));
  const doubt = Number(meanDoubt(map.covarianceOf(linears)).toFixed(2));
  return { scale: { ...scale, teachings: [...scale.teachings, { ...carried, blocks, doubt }] }, reason: null };
}

/** Root mean square standard deviation of all directions, CIEDE2000. */
function meanDoubt(covariance: readonly (readonly number[])[]): number {
  return Math.sqrt(covariance.reduce((sum, row, i) => sum + row[i]!, 0) / covariance.length);
}

function rounded(lab: Triple): [number, number, number] {
  return lab.map((value) => Number(value.toFixed(2))) as [number, number, number];
}
