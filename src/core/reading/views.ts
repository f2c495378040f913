/**
 * The ways in which one photo's colours can be held against a scale: towards each photo that taught it, through
 * the printed colour patches they share, or by the greys alone.
 */
import { comparePrints } from '../card/print-mark.ts';
import { cardPairs } from '../colour/anchors.ts';
import { type ColourMap, fitColourMap } from '../colour/colour-map.ts';
import type { Triple } from '../colour/lab.ts';
import { fitNeutrals, type NeutralCorrection } from '../colour/neutrals.ts';
import type { CardSamples, PatchSample } from '../samples.ts';
import { curveThrough, type ScaleCurve } from '../scale/curve.ts';
import { blocksIn, withLearnt } from '../scale/learn.ts';
import type { StripScale } from '../scale/schema.ts';

export interface View {
  readonly correction: NeutralCorrection;
  /** Colour of a sample as the scale's blocks were seen, linear. */
  toScale(sample: PatchSample): Triple;
  /** What that leaves in colours (linear, before it): see `ColourMap`. */
  readonly covarianceOf: ColourMap['covarianceOf'];
  /** How far wet pads may be from the chart's inks between that light and this, CIEDE2000; 0 where no chart taught. */
  readonly inkSigma: number;
  /** One a pad. */
  readonly curves: readonly ScaleCurve[];
  /** Position of the teaching photo; null for the greys alone. */
  readonly teaching: number | null;
  /** All views together 1. */
  readonly weight: number;
}

export interface Views {
  /** What led the colours. */
  readonly correction: 'neutrals' | 'anchors';
  readonly views: readonly View[];
  /** The scale was taught with another print of the card: its anchors are left alone. */
  readonly anotherPrint: boolean;
}

const MIN_ANCHORS = 9;
/** Share of clipped pixels above which a grey tells nothing. */
const MAX_CLIPPED = 0.1;
/**
 * Anchors that no smooth map fits better than this, CIEDE2000, lead nowhere: most likely those of another print. One of
 * fifty everyday photos beside the same print comes to it. Colours alone hardly tell another print: 97 in 100 stay below.
 */
const MAX_RESIDUAL = 4.8;
/** Teaching photos whose patches looked unlike today's by this much more count for far less, CIEDE2000. */
const LIKENESS = 1.5;
/**
 * How far a wet pad is from the chart's inks of its value, CIEDE2000: inks match it to the eye by day. The less today's light
 * is like the teaching photo's, the less they do (by the cube of how the patches differ, CIEDE2000), and under a lamp least.
 */
const INK_SIGMA = 0.6;
const INK_SIGMA_PER_CUBE = 0.013;
const LAMP_SIGMA = 1.8;
/** Variance of colours that nothing leads, against that between two photos: they stray from the truth, not from another photo. */
const UNLED = 6;
/** The patches' difference where there are none to compare, as between two everyday lights and phones. */
const USUAL_DIFFERENCE = 4.5;

export function viewsOf(card: CardSamples, scale: StripScale): Views {
  const taught = scale.teachings.flatMap((_, teaching) => towards(card, scale, teaching) ?? []);
  // Colours are asked only where the marks don't say.
  const usable = taught.filter(
    ({ print, map }) => print === 'same' || (print === 'unknown' && map.residual <= MAX_RESIDUAL),
  );
  if (usable.length === 0) return { ...byGreysAlone(card, scale), anotherPrint: taught.length > 0 };
  const likeness = usable.map(({ map }) => Math.exp(-0.5 * (map.residualWithout / LIKENESS) ** 2) + 1e-9);
  const sum = likeness.reduce((total, value) => total + value, 0);
  return {
    correction: 'anchors',
    views: usable.map(({ view }, i) => ({ ...view, weight: likeness[i]! / sum })),
    anotherPrint: false,
  };
}

function byGreysAlone(card: CardSamples, scale: StripScale): Omit<Views, 'anotherPrint'> {
  const correction = fitNeutrals(card);
  const toScale = ({ rgb, xMm, yMm }: PatchSample) => correction.toLinear(rgb, xMm, yMm);
  const greys = [...card.neutrals, ...card.paper].filter(({ clipped }) => clipped < MAX_CLIPPED).map(toScale);
  // A map that knows nothing but that greys stay as they are: it changes no colour, and says how far colours stray.
  const { covarianceOf } = fitColourMap(
    [],
    greys.map((grey) => ({ from: grey, to: grey })),
  );
  const widened: View['covarianceOf'] = (linears) =>
    covarianceOf(linears).map((row) => row.map((value) => UNLED * value));
  const [first] = scale.teachings;
  const inkSigma = scale.origin === 'taught' ? inkSigmaIn(first?.light ?? '', USUAL_DIFFERENCE) : 0;
  const curves = curvesOf(scale, null);
  const view = { correction, toScale, covarianceOf: widened, inkSigma, curves, teaching: null, weight: 1 };
  return { correction: 'neutrals', views: [view] };
}

interface Towards {
  readonly view: View;
  readonly map: ColourMap;
  readonly print: ReturnType<typeof comparePrints>;
}

/** @returns null when this photo's card has too few colour patches */
function towards(card: CardSamples, scale: StripScale, position: number): Towards | null {
  const teaching = scale.teachings[position]!;
  const correction = fitNeutrals(card, teaching.print);
  const linear = ({ rgb, xMm, yMm }: PatchSample) => correction.toLinear(rgb, xMm, yMm);
  const { anchors, neutrals } = cardPairs(card, teaching, linear);
  if (anchors.length < MIN_ANCHORS) return null;
  const map = fitColourMap(anchors, neutrals);
  const toScale = (sample: PatchSample) => map.apply(linear(sample));
  const inkSigma = inkSigmaIn(teaching.light, map.residualWithout);
  const view = {
    correction,
    toScale,
    covarianceOf: map.covarianceOf,
    inkSigma,
    curves: curvesOf(scale, position),
    teaching: position,
    weight: 1,
  };
  const print = comparePrints(card, { version: teaching.cardVersion, printMark: teaching.printMark ?? null });
  return { view, map, print };
}

/** The owner's words for a light of lamps. */
const LAMP_WORDS = /lamp|bulb|tube|led\b|fluorescent|indoor|kitchen|room/i;

function inkSigmaIn(light: string, difference: number): number {
  return Math.hypot(INK_SIGMA, INK_SIGMA_PER_CUBE * difference ** 3, LAMP_WORDS.test(light) ? LAMP_SIGMA : 0);
}

/** One a pad, through its blocks as that teaching photo showed them, and as far as known water has moved them. */
function curvesOf(scale: StripScale, teaching: number | null): ScaleCurve[] {
  return scale.pads.map((pad, k) => {
    const blocks = blocksIn(scale, k, teaching);
    return curveThrough({ ...pad, blocks: withLearnt(scale, pad.parameter, blocks, teaching) });
  });
}
