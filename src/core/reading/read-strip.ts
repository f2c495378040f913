/** From the colours of card and strip to values: correction, then each pad on its scale. */
import { ciede2000 } from '../colour/difference.ts';
import { linearToLab, type Triple } from '../colour/lab.ts';
import type { NeutralCorrection } from '../colour/neutrals.ts';
import type { CardSamples, PadSample, StripSamples } from '../samples.ts';
import type { ScalePad, StripScale } from '../scale/schema.ts';
import { codesOf, type Doubt, doubtSigma, type Objection, placesOf } from './doubts.ts';
import { judgeSamples } from './judge-samples.ts';
import { MAX_DISTANCE, nearestOn, type Placement, placePad } from './place.ts';
import type { PadReading, Reading } from './reading.ts';
import { type PadColour, type PlacedColour, withoutSharedErrors } from './shared-errors.ts';
import { type View, viewsOf } from './views.ts';

/** What dye, wet film and finder leave over for a single pad, CIEDE2000. */
const PAD_SIGMA = 0.55;
/* By how much more or less than usual lights part ink and pad, by the pad's hue. */
const LIGHT_BY_HUE = 0.35;
const WORST_HUE = (50 * Math.PI) / 180;
const LIGHT_BY_AXIS = 0.65;
const WORST_AXIS = (36 * Math.PI) / 180;
/**
 * A strip's pads lie off their curves by about as much as they are off along them, so how well all of them fit says how sure
 * each is: its doubt for a perfect fit, and what a misfit of its own size adds (R. T. Birge, Phys. Rev. 40:207, 1932, held back
 * by what few pads can tell). With a practice scale or another print only a misfit beyond the usual says something: most of the
 * doubt is of what pads share. Set on simulated cameras and on eight measured ones.
 */
const PERFECT_FIT = 0.72;
const MISFIT_SHARE = 0.7;
const USUAL_MISFIT = 0.8;
const MAX_FIT_SIGMAS = 4;
/** How much of a print's tint the correction may have got wrong. */
const TINT_SHARE = 0.25;
/** Plastic that is clipped in a channel over more than this share has lost its colour. */
const MAX_CLIPPED_BASE = 0.1;
/** What another pad's being nowhere on the scale adds, CIEDE2000. */
const UNMATCHED_SIGMA = 2;

/**
 * Root mean square of the pads' CIEDE2000 to their scales, each counted to the distance at which it no longer matches, beyond
 * which these aren't their colours: another strip, or a light that the correction can't undo. Of 133 readable photos of the
 * studio 132 stay below 5; with one pad stained it is about 6, and what was read wrong lies beyond 7.5.
 */
const MAX_MISFIT = 7;

/**
 * Refuses when half the pads or more match no part of their scales, or all together hardly: another strip, or one lying wrong.
 * @param phoneSigma what the check of this phone found beyond the usual, CIEDE2000: see `noiseOf`
 */
export function readStrip(
  card: CardSamples,
  strip: StripSamples,
  scale: StripScale,
  marksResidualMm: number,
  phoneSigma = 0,
): Reading {
  const { correction, views, anotherPrint } = viewsOf(card, scale);
  const main = views.reduce((best, view) => (view.weight > best.weight ? view : best));
  const judgement = judgeSamples({
    card,
    strip,
    scale,
    correction: main.correction,
    curves: main.curves,
    anotherPrint,
  });
  if (judgement.objections.length > 0) return refused(judgement.objections);
  const place = (doubts: readonly Doubt[]) => placeAll(views, main, strip, scale, doubts, phoneSigma);
  const first = place(judgement.doubts);
  const unmatched = first.filter(({ matched }) => !matched);
  if (unmatched.length >= first.length / 2 || misfitOf(first) > MAX_MISFIT) {
    const strange = unmatched.length > 0 ? unmatched : first;
    return refused(strange.map(({ quantity, outline }) => ({ code: 'strip-mismatch', parameter: quantity, outline })));
  }
  const doubts = [...judgement.doubts, ...aboutUnmatched(unmatched)];
  return {
    outcome: 'read',
    correction,
    pads: unmatched.length > 0 ? unmatchedKept(first, place(doubts)) : first,
    warnings: codesOf(doubts),
    places: placesOf(doubts),
    basis: { printMark: card.printMark, teaching: main.teaching },
    quality: {
      neutralResidual: main.correction.residual,
      shadingPercent: main.correction.shadingPercent,
      marksResidualMm,
    },
  };
}

function misfitOf(pads: readonly PadReading[]): number {
  return Math.sqrt(pads.reduce((sum, { deltaE }) => sum + Math.min(deltaE, MAX_DISTANCE) ** 2, 0) / pads.length);
}

/** A pad that is nowhere on its scale makes the scale itself doubtful, and so the other pads. */
function aboutUnmatched(unmatched: readonly PadReading[]): Doubt[] {
  return unmatched.flatMap(({ quantity, outline }): Doubt[] => [
    { code: 'pad-unmatched', sigma: 0, parameter: quantity, outline },
    { code: 'pad-unmatched', sigma: UNMATCHED_SIGMA, parameter: null, outline: null },
  ]);
}

/** Every pad on its scale, in each view together with the others, and then by all views. */
function placeAll(
  views: readonly View[],
  main: View,
  strip: StripSamples,
  scale: StripScale,
  doubts: readonly Doubt[],
  phoneSigma: number,
): PadReading[] {
  const { residual, castResidual } = main.correction;
  const sigmas = scale.pads.map(({ parameter }, i) =>
    Math.hypot(
      PAD_SIGMA,
      phoneSigma,
      residual,
      TINT_SHARE * castResidual,
      scatterOf(strip.pads[i]!, main.correction),
      doubtSigma(doubts, parameter),
    ),
  );
  const placed = views.map((view) => placeInView(view, strip, scale, sigmas));
  const joint = scale.pads.map((_, i) => {
    const padViews = views.map(({ curves, weight }, k) => ({ ...placed[k]![i]!, curve: curves[i]!, weight }));
    // Today's own errors are the same in every view, so further views make a pad no surer than the mean of them.
    const mean = (of: (one: PlacedColour) => number) =>
      Math.sqrt(padViews.reduce((sum, one) => sum + one.weight * of(one) ** 2, 0));
    return { padViews, sigma: mean((one) => one.sigma), seenSigma: mean((one) => one.seenSigma) };
  });
  const placeBy = (ratio: number) =>
    joint.map(({ padViews, sigma, seenSigma }, i) => placePad(padViews, main.curves[i]!, ratio * sigma, seenSigma));
  const misfit = rootMeanSquareFit(placeBy(1));
  const told = placeBy(
    main.bySamePrint ? Math.hypot(PERFECT_FIT, MISFIT_SHARE * misfit) : Math.max(1, misfit / USUAL_MISFIT),
  );
  const seen = placed[views.indexOf(main)]!;
  return scale.pads.map((pad, i) => describePad(pad, strip.pads[i]!, seen[i]!.seen, told[i]!));
}

/** How far pads lie off their curves, in their own standard deviations. */
function rootMeanSquareFit(pads: readonly Placement[]): number {
  const squares = pads.map(({ deltaE, sigma }) => Math.min(MAX_FIT_SIGMAS, deltaE / sigma) ** 2);
  return Math.sqrt(squares.reduce((sum, one) => sum + one, 0) / squares.length);
}

function placeInView(view: View, strip: StripSamples, scale: StripScale, sigmas: readonly number[]): PlacedColour[] {
  const colours = view.curves.map((curve, i): PadColour => {
    const linear = view.toScale(strip.pads[i]!);
    const lab = linearToLab(linear);
    const { position } = nearestOn(curve, lab);
    const inkSigma = view.inkSigma * between(view.inkLeft[i]!, curve.blockAt(position));
    const sigma = Math.hypot(sigmas[i]!, inkSigma, view.lightSigma * lightShare(lab));
    return { linear, curve, position, sigma };
  });
  return withoutSharedErrors(colours, baseOf(strip, scale, view), view.covarianceOf);
}

/** Of numbers, one a block: at a place among the blocks, or at the nearest end. */
function between(numbers: readonly number[], block: number): number {
  const at = Math.min(numbers.length - 1, Math.max(0, block));
  const low = Math.floor(at);
  return numbers[low]! + (at - low) * ((numbers[low + 1] ?? numbers[low]!) - numbers[low]!);
}

/**
 * By day inks and pads part alike in all hues. Other lights part them most along the way from orange to cyan, on which lights
 * themselves differ, and more in orange than in cyan. Seen in simulated inks, pads and lights only.
 */
function lightShare([, a, b]: Triple): number {
  const hue = Math.atan2(b, a);
  return 1 + LIGHT_BY_HUE * Math.cos(hue - WORST_HUE) + LIGHT_BY_AXIS * Math.cos(2 * (hue - WORST_AXIS));
}

/** Pads that are nowhere on their scales are left as they were found. */
function unmatchedKept(first: readonly PadReading[], again: readonly PadReading[]): PadReading[] {
  return first.map((pad, i) => (pad.matched ? again[i]! : pad));
}

function baseOf(strip: StripSamples, scale: StripScale, view: View) {
  const whole = strip.base.filter(({ clipped }) => clipped < MAX_CLIPPED_BASE);
  if (!scale.strip.base || whole.length === 0) return null;
  const linears = whole.map((sample) => view.toScale(sample));
  const median = [0, 1, 2].map((c) => medianOf(linears.map((linear) => linear[c]!)));
  return { linear: median as unknown as Triple, lab: scale.strip.base };
}

function medianOf(values: number[]): number {
  return values.toSorted((one, two) => one - two)[values.length >> 1]!;
}

function refused(objections: readonly Objection[]): Reading {
  return { outcome: 'refused', reasons: codesOf(objections), places: placesOf(objections) };
}

function describePad(pad: ScalePad, sample: PadSample, lab: Triple, placed: Placement): PadReading {
  const found = placed.matched ? placed.best : null;
  return {
    quantity: pad.parameter,
    value: found?.value ?? null,
    low: found?.low ?? null,
    high: found?.high ?? null,
    alternative: placed.matched ? placed.alternative : null,
    offScale: placed.matched ? placed.offScale : null,
    openBelow: placed.matched && placed.openBelow,
    openAbove: placed.matched && placed.openAbove,
    matched: placed.matched,
    deltaE: placed.deltaE,
    lab,
    sigma: placed.sigma,
    outline: sample.outline,
  };
}

/** Mottling moves together over whole areas of a pad: it averages out far more slowly than its pixels number. */
const INDEPENDENT_AREAS = 9;

/** Standard deviation of the pad's mean colour from its own mottling, CIEDE2000. */
function scatterOf(sample: PadSample, correction: NeutralCorrection): number {
  const at = (rgb: Triple) => linearToLab(correction.toLinear(rgb, sample.xMm, sample.yMm));
  const middle = at(sample.rgb);
  const shifted = sample.rgb.map((value, c) => value + sample.scatter[c]!) as unknown as Triple;
  return ciede2000(middle, at(shifted)) / Math.sqrt(INDEPENDENT_AREAS);
}
