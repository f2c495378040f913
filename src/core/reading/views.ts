/**
 * The ways in which one photo's colours can be held against a scale: towards each photo that taught it, through
 * the printed colour patches they share, or by the greys alone.
 */
import { comparePrints } from '../card/print-mark.ts';
import { cardPairs, type Pair } from '../colour/anchors.ts';
import { type ColourMap, fitColourMap, OTHER_PRINT_SIGMA } from '../colour/colour-map.ts';
import { hueTurn } from '../colour/hue-turn.ts';
import type { Triple } from '../colour/lab.ts';
import { fitNeutrals, type NeutralCorrection } from '../colour/neutrals.ts';
import type { CardSamples, PatchSample } from '../samples.ts';
import { curveThrough, type ScaleCurve } from '../scale/curve.ts';
import { blocksIn, doubtLeft, withLearnt } from '../scale/learn.ts';
import type { StripScale, Teaching } from '../scale/schema.ts';

export interface View {
  readonly correction: NeutralCorrection;
  /** Colour of a sample as the scale's blocks were seen, linear. */
  toScale(sample: PatchSample): Triple;
  /** What that leaves in colours (linear, before it): see `ColourMap`. */
  readonly covarianceOf: ColourMap['covarianceOf'];
  /** How far wet pads may be from the scale's colours, CIEDE2000: by day, and besides by the light, which goes by hue. */
  readonly inkSigma: number;
  readonly lightSigma: number;
  /** One a pad. */
  readonly curves: readonly ScaleCurve[];
  /** One a pad and block: how much of `inkSigma` known water has left there, 0 to 1. */
  readonly inkLeft: readonly (readonly number[])[];
  /** Position of the teaching photo; null for the greys alone. */
  readonly teaching: number | null;
  /** Led by patches of the very print that taught. */
  readonly bySamePrint: boolean;
  /** All views together 1. */
  readonly weight: number;
}

export interface Views {
  /** What led the colours. */
  readonly correction: 'neutrals' | 'anchors';
  readonly views: readonly View[];
  /** The scale was taught with another print of the card: its anchors lead less surely, or not at all. */
  readonly anotherPrint: boolean;
}

const MIN_ANCHORS = 9;
/** Share of clipped pixels above which a grey tells nothing. */
const MAX_CLIPPED = 0.1;
/**
 * Anchors that no smooth map fits better than this, CIEDE2000, lead nowhere. Of a print that isn't known they are most likely
 * another's: one of fifty everyday photos beside the same print comes to 4.8. Colours alone hardly tell another print: 97 in 100
 * stay below. Of one that is known to be another they come to 8 where its inks are of another kind.
 */
const MAX_RESIDUAL = { unknown: 4.8, another: 8 } as const;
/** Teaching photos against which hues have turned by more than this, degrees, or patches differ by more, CIEDE2000, count for far less. */
const LIKE_TURN = 2;
const LIKENESS = 3;
/** Beside another print a lamp's chart is trusted less. */
const OTHER_PRINT_LAMP = 0.3;
/**
 * How far a wet pad is from the chart's inks of its value, CIEDE2000: inks match it to the eye by day. The less today's light
 * is like the teaching photo's, the less they do: so much for each degree by which it turns hues; and a lamp's chart never
 * matched them. Set on simulated cameras and lights and on measured ones.
 */
const INK_SIGMA = 0.8;
const LIGHT_SIGMA = 0.5;
const LIGHT_SIGMA_PER_DEGREE = 0.37;
const LAMP_SIGMA = 2.4;
/** The same for a practice scale, whose pads no photo of this phone has shown. */
const UNSEEN_SIGMA = 2;
/** Variance of colours that nothing leads, against that between two photos: they stray from the truth, not from another photo. */
const UNLED = 5;
/**
 * Variance of colours that another print's patches lead against that of colours led by the same print's: patches of one ink err
 * alike. Seen in simulated home printers only.
 */
const OTHER_PRINT = 3;
/** What light adds where no patches tell of it, as between two everyday lights, CIEDE2000. */
const UNTOLD_LIGHT_SIGMA = 1.367;

export function viewsOf(card: CardSamples, scale: StripScale): Views {
  const correctionFor = correctionsOf(card, scale);
  const taught = scale.teachings.flatMap((_, teaching) => towards(card, scale, teaching, correctionFor) ?? []);
  const fitting = taught.filter(({ print, map }) => print === 'same' || map.residual <= MAX_RESIDUAL[print]);
  // Another print's patches are asked only where none is known to be, or may be, of a print that taught.
  const own = fitting.filter(({ print }) => print !== 'another');
  const usable = own.length > 0 ? own : fitting;
  if (usable.length === 0) return { ...byGreysAlone(card, scale), anotherPrint: taught.length > 0 };
  const likeness = usable.map((one) => likenessOf(one, scale));
  const sum = likeness.reduce((total, value) => total + value, 0);
  return {
    correction: 'anchors',
    views: usable.map(({ view }, i) => ({ ...view, weight: likeness[i]! / sum })),
    anotherPrint: own.length === 0,
  };
}

function likenessOf({ map, print, view, turn }: Towards, { teachings }: StripScale): number {
  const likeness = Math.exp(-0.5 * ((map.residualWithout / LIKENESS) ** 2 + (turn / LIKE_TURN) ** 2)) + 1e-9;
  return print === 'another' && LAMP_WORDS.test(teachings[view.teaching!]!.light)
    ? OTHER_PRINT_LAMP * likeness
    : likeness;
}

function byGreysAlone(card: CardSamples, scale: StripScale): Omit<Views, 'anotherPrint'> {
  const correction = fitNeutrals(card);
  const toScale = ({ rgb, xMm, yMm }: PatchSample) => correction.toLinear(rgb, xMm, yMm);
  // A map that knows nothing but that greys stay as they are: it changes no colour, and says how far colours stray.
  const { covarianceOf } = fitColourMap([], keptGreys(card, toScale));
  const [first] = scale.teachings;
  const inkSigma = scale.origin === 'taught' ? INK_SIGMA : UNSEEN_SIGMA;
  const curves = curvesOf(scale, null);
  const view = {
    correction,
    toScale,
    covarianceOf: widened(covarianceOf, UNLED),
    inkSigma,
    lightSigma: lightSigmaIn(first?.light ?? '', UNTOLD_LIGHT_SIGMA),
    curves,
    inkLeft: inkLeftIn(scale, null),
    teaching: null,
    bySamePrint: false,
    weight: 1,
  };
  return { correction: 'neutrals', views: [view] };
}

/** Greys are grey in every print. */
function keptGreys(card: CardSamples, linear: (sample: PatchSample) => Triple): Pair[] {
  const whole = [...card.neutrals, ...card.paper].filter(({ clipped }) => clipped < MAX_CLIPPED);
  return whole.map(linear).map((grey) => ({ from: grey, to: grey }));
}

function widened(covarianceOf: View['covarianceOf'], by: number): View['covarianceOf'] {
  return (linears) => covarianceOf(linears).map((row) => row.map((value) => by * value));
}

interface Towards {
  readonly view: View;
  readonly map: ColourMap;
  readonly print: ReturnType<typeof comparePrints>;
  /** By how much this light turns hues against the teaching photo's, degrees. */
  readonly turn: number;
}

/** Photos beside one print share its greys' fit, which takes longer than all else; null is a print that nothing is known of. */
function correctionsOf(card: CardSamples, { teachings }: StripScale): (beside: Teaching | null) => NeutralCorrection {
  const known = new Map<Teaching | null, NeutralCorrection>();
  return (beside) => {
    const first = beside && teachings.find((one) => isSamePrint(one, beside))!;
    const correction = known.get(first) ?? fitNeutrals(card, first?.print);
    known.set(first, correction);
    return correction;
  };
}

function isSamePrint(one: Teaching, other: Teaching): boolean {
  return one.cardVersion === other.cardVersion && one.printMark === other.printMark;
}

/** @returns null when this photo's card has too few colour patches */
function towards(
  card: CardSamples,
  scale: StripScale,
  position: number,
  correctionFor: ReturnType<typeof correctionsOf>,
): Towards | null {
  const teaching = scale.teachings[position]!;
  const print = comparePrints(card, { version: teaching.cardVersion, printMark: teaching.printMark ?? null });
  const isAnother = print === 'another';
  const correction = correctionFor(isAnother ? null : teaching);
  const linear = ({ rgb, xMm, yMm }: PatchSample) => correction.toLinear(rgb, xMm, yMm);
  const { anchors, neutrals } = cardPairs(card, teaching, linear);
  if (anchors.length < MIN_ANCHORS) return null;
  const map = isAnother
    ? fitColourMap(anchors, keptGreys(card, linear), OTHER_PRINT_SIGMA)
    : fitColourMap(anchors, neutrals);
  const toScale = (sample: PatchSample) => map.apply(linear(sample));
  const turn = hueTurn(anchors);
  const view = {
    correction,
    toScale,
    covarianceOf: isAnother ? widened(map.covarianceOf, OTHER_PRINT) : map.covarianceOf,
    inkSigma: Math.hypot(INK_SIGMA, teaching.doubt ?? 0),
    lightSigma: lightSigmaIn(teaching.light, Math.hypot(LIGHT_SIGMA, LIGHT_SIGMA_PER_DEGREE * turn)),
    curves: curvesOf(scale, position),
    inkLeft: inkLeftIn(scale, position),
    teaching: position,
    bySamePrint: !isAnother,
    weight: 1,
  };
  return { view, map, print, turn };
}

/** The owner's words for a light of lamps. */
const LAMP_WORDS = /lamp|bulb|tube|led\b|fluorescent|indoor|kitchen|room/i;

/** @param today what this light adds, CIEDE2000 */
function lightSigmaIn(light: string, today: number): number {
  return LAMP_WORDS.test(light) ? Math.hypot(LAMP_SIGMA, today) : today;
}

/** One a pad, through its blocks as that teaching photo showed them, and as far as known water has moved them. */
function curvesOf(scale: StripScale, teaching: number | null): ScaleCurve[] {
  return scale.pads.map((pad, k) => {
    const blocks = blocksIn(scale, k, teaching);
    return curveThrough({ ...pad, blocks: withLearnt(scale, pad.parameter, blocks, teaching) });
  });
}

function inkLeftIn(scale: StripScale, teaching: number | null): number[][] {
  return scale.pads.map(({ parameter }, k) => doubtLeft(scale, parameter, blocksIn(scale, k, teaching), teaching));
}
