/**
 * The ways in which one photo's colours can be held against a scale: towards each photo that taught it, through
 * the printed colour patches they share, or by the greys alone.
 */
import { type AnchorMap, fitAnchorMap, type Pair } from '../colour/anchors.ts';
import type { Triple } from '../colour/lab.ts';
import { fitNeutrals, type NeutralCorrection } from '../colour/neutrals.ts';
import type { CardSamples, PatchSample } from '../samples.ts';
import { curveThrough, type ScaleCurve } from '../scale/curve.ts';
import type { StripScale, Teaching } from '../scale/schema.ts';

export interface View {
  readonly correction: NeutralCorrection;
  /** Colour of a sample as the scale's blocks were seen, linear. */
  toScale(sample: PatchSample): Triple;
  /** One a pad. */
  readonly curves: readonly ScaleCurve[];
  /** All views together 1. */
  readonly weight: number;
}

export interface Views {
  readonly correction: 'neutrals' | 'anchors';
  readonly views: readonly View[];
  /** Root mean square misfit of the anchors after the maps, each left out in turn, CIEDE2000; 0 by greys alone. */
  readonly anchorResidual: number;
}

const LEAST_ANCHORS = 9;
/** Another print of the card leaves more than this, CIEDE2000; see `npm run accuracy`. */
const SAME_PRINT = 3;
/** Teaching photos whose anchors looked unlike today's by this much more count for far less, CIEDE2000. */
const LIKENESS = 1.5;

export function viewsOf(card: CardSamples, scale: StripScale): Views {
  const taught = scale.teachings.flatMap((teaching) => towards(card, scale, teaching) ?? []);
  if (taught.length === 0) return byGreysAlone(card, scale);
  const likeness = taught.map(({ map }) => Math.exp(-0.5 * (map.residualWithout / LIKENESS) ** 2) + 1e-9);
  const sum = likeness.reduce((total, value) => total + value, 0);
  return {
    correction: 'anchors',
    views: taught.map(({ view }, i) => ({ ...view, weight: likeness[i]! / sum })),
    anchorResidual: Math.sqrt(
      taught.reduce((total, { map }, i) => total + (likeness[i]! / sum) * map.residual * map.residual, 0),
    ),
  };
}

function byGreysAlone(card: CardSamples, scale: StripScale): Views {
  const correction = fitNeutrals(card);
  const toScale = ({ rgb, xMm, yMm }: PatchSample) => correction.toLinear(rgb, xMm, yMm);
  const view = { correction, toScale, curves: scale.pads.map(curveThrough), weight: 1 };
  return { correction: 'neutrals', views: [view], anchorResidual: 0 };
}

/** @returns null when this photo's card isn't the one of the teaching photo, or has no colour patches */
function towards(card: CardSamples, scale: StripScale, teaching: Teaching): { view: View; map: AnchorMap } | null {
  if (teaching.cardVersion !== card.version) return null;
  const correction = fitNeutrals(card, teaching.print);
  const linear = ({ rgb, xMm, yMm }: PatchSample) => correction.toLinear(rgb, xMm, yMm);
  const pairs = (samples: readonly PatchSample[], known: Teaching['anchors']): Pair[] =>
    samples.flatMap((sample) => {
      const to = known[sample.id];
      return to && sample.clipped < 0.1 ? [{ from: linear(sample), to }] : [];
    });
  const anchors = pairs(card.anchors, teaching.anchors);
  if (anchors.length < LEAST_ANCHORS) return null;
  const map = fitAnchorMap(anchors, pairs(card.neutrals, teaching.neutrals));
  if (map.residual > SAME_PRINT) return null;
  const curves = scale.pads.map((pad, k) =>
    curveThrough({ ...pad, blocks: pad.blocks.map(({ value }, i) => ({ value, lab: teaching.blocks[k]![i]! })) }),
  );
  return { view: { correction, toScale: (sample) => map.apply(linear(sample)), curves, weight: 1 }, map };
}
