/**
 * The ways in which one photo's colours can be held against a scale: towards each photo that taught it, through
 * the printed colour patches they share, or by the greys alone.
 */
import { comparePrints } from '../card/print-mark.ts';
import { type AnchorMap, cardPairs, fitAnchorMap } from '../colour/anchors.ts';
import type { Triple } from '../colour/lab.ts';
import { fitNeutrals, type NeutralCorrection } from '../colour/neutrals.ts';
import { ANOTHER_PRINT, unlikeSamePrint } from '../colour/same-print.ts';
import type { CardSamples, PatchSample } from '../samples.ts';
import { curveThrough, type ScaleCurve } from '../scale/curve.ts';
import { blocksIn, withLearnt } from '../scale/learn.ts';
import type { StripScale } from '../scale/schema.ts';

export interface View {
  readonly correction: NeutralCorrection;
  /** Colour of a sample as the scale's blocks were seen, linear. */
  toScale(sample: PatchSample): Triple;
  /** One a pad. */
  readonly curves: readonly ScaleCurve[];
  /** Position of the teaching photo; null for the greys alone. */
  readonly teaching: number | null;
  /** All views together 1. */
  readonly weight: number;
}

export interface Views {
  /** What led the colours: 'neutrals' also where the anchors' maps are no better than none. */
  readonly correction: 'neutrals' | 'anchors';
  readonly views: readonly View[];
  /** Root mean square misfit of the anchors after the maps, each left out in turn, CIEDE2000; 0 by greys alone. */
  readonly anchorResidual: number;
  /** The scale was taught with another print of the card: its anchors are left alone. */
  readonly anotherPrint: boolean;
}

const LEAST_ANCHORS = 9;
/** Anchors that fit worse than this, CIEDE2000, lead nowhere, whatever print they are of. */
const MOST_RESIDUAL = 5;
/** Teaching photos whose anchors looked unlike today's by this much more count for far less, CIEDE2000. */
const LIKENESS = 1.5;

export function viewsOf(card: CardSamples, scale: StripScale): Views {
  const taught = scale.teachings.flatMap((_, teaching) => towards(card, scale, teaching) ?? []);
  // Colours are asked only where the marks don't say.
  const perhapsSame = taught.filter(({ print }) => print !== 'another');
  const anotherPrint =
    taught.length > 0 && perhapsSame.every(({ print, unlike }) => print === 'unknown' && unlike > ANOTHER_PRINT);
  const usable = anotherPrint ? [] : perhapsSame.filter(({ map }) => map.residual <= MOST_RESIDUAL);
  if (usable.length === 0) return { ...byGreysAlone(card, scale), anotherPrint };
  const likeness = usable.map(({ map }) => Math.exp(-0.5 * (map.residualWithout / LIKENESS) ** 2) + 1e-9);
  const sum = likeness.reduce((total, value) => total + value, 0);
  const heaviest = usable[likeness.indexOf(Math.max(...likeness))]!;
  return {
    correction: heaviest.map.kind === 'none' ? 'neutrals' : 'anchors',
    views: usable.map(({ view }, i) => ({ ...view, weight: likeness[i]! / sum })),
    anchorResidual: Math.sqrt(
      usable.reduce((total, { map }, i) => total + (likeness[i]! / sum) * map.residual * map.residual, 0),
    ),
    anotherPrint: false,
  };
}

function byGreysAlone(card: CardSamples, scale: StripScale): Omit<Views, 'anotherPrint'> {
  const correction = fitNeutrals(card);
  const toScale = ({ rgb, xMm, yMm }: PatchSample) => correction.toLinear(rgb, xMm, yMm);
  const view = { correction, toScale, curves: curvesOf(scale, null), teaching: null, weight: 1 };
  return { correction: 'neutrals', views: [view], anchorResidual: 0 };
}

interface Towards {
  readonly view: View;
  readonly map: AnchorMap;
  readonly print: ReturnType<typeof comparePrints>;
  readonly unlike: number;
}

/** @returns null when this photo's card has too few colour patches */
function towards(card: CardSamples, scale: StripScale, position: number): Towards | null {
  const teaching = scale.teachings[position]!;
  const correction = fitNeutrals(card, teaching.print);
  const linear = ({ rgb, xMm, yMm }: PatchSample) => correction.toLinear(rgb, xMm, yMm);
  const { anchors, neutrals } = cardPairs(card, teaching, linear);
  if (anchors.length < LEAST_ANCHORS) return null;
  const map = fitAnchorMap(anchors, neutrals);
  const view = {
    correction,
    toScale: (sample: PatchSample) => map.apply(linear(sample)),
    curves: curvesOf(scale, position),
    teaching: position,
    weight: 1,
  };
  const print = comparePrints(card, { version: teaching.cardVersion, printMark: teaching.printMark ?? null });
  return { view, map, print, unlike: unlikeSamePrint(anchors) };
}

/** One a pad, through its blocks as that teaching photo showed them, and as far as known water has moved them. */
function curvesOf(scale: StripScale, teaching: number | null): ScaleCurve[] {
  return scale.pads.map((pad, k) => {
    const blocks = blocksIn(scale, k, teaching);
    return curveThrough({ ...pad, blocks: withLearnt(scale, pad.parameter, blocks, teaching) });
  });
}
