/** From the colours of card and strip to values: correction, then each pad on its scale. */
import { ciede2000 } from '../colour/difference.ts';
import { linearToLab, type Triple } from '../colour/lab.ts';
import type { NeutralCorrection } from '../colour/neutrals.ts';
import type { CardSamples, PadSample, StripSamples } from '../samples.ts';
import type { ScalePad, StripScale } from '../scale/schema.ts';
import { codesOf, type Doubt, doubtSigma, type Objection, placesOf } from './doubts.ts';
import { judgeSamples } from './judge-samples.ts';
import { MOST_DISTANCE, nearestOn, type Placement, placePad } from './place.ts';
import type { PadReading, Reading } from './reading.ts';
import { fitSharedErrors, type PadColour } from './together.ts';
import { type View, type Views, viewsOf } from './views.ts';

/**
 * What camera, light and dye leave over for a single pad: an error of this share in each linear channel
 * (one standard deviation), and a floor in CIEDE2000. Set on simulated phones so that nine in ten intervals
 * hold the truth.
 */
const CHANNEL_SIGMA = 0.045;
/** The same where the card's anchors led to a teaching photo. */
const PAIRED_CHANNEL_SIGMA = 0.03;
/** The same for a scale that was taught, where nothing leads to the light that taught it. */
const UNPAIRED_CHANNEL_SIGMA = 0.085;
const FLOOR_SIGMA = 1;
/** How much of a print's tint the correction may have got wrong. */
const TINT_SHARE = 0.25;
/** How much of the anchors' own misfit a pad shares. */
const ANCHOR_SHARE = 0.5;
/** Plastic that is clipped in a channel over more than this share has lost its colour. */
const MOST_CLIPPED_BASE = 0.1;
/** What another pad's being nowhere on the scale adds, CIEDE2000. */
const UNMATCHED_SIGMA = 2;

/**
 * Root mean square of the pads' CIEDE2000 to their scales, each counted to the distance at which it no longer matches, beyond
 * which these aren't their colours: another strip, or a light that the correction can't undo. Of 133 readable photos of the
 * studio 132 stay below 5; with one pad stained it is about 6, and what was read wrong lies beyond 7.5.
 */
const MOST_MISFIT = 7;

/** Refuses when half the pads or more match no part of their scales, or all together hardly: another strip, or one lying wrong. */
export function readStrip(card: CardSamples, strip: StripSamples, scale: StripScale, marksResidualMm: number): Reading {
  const seenAs = viewsOf(card, scale);
  const { correction, views, anchorResidual, anotherPrint } = seenAs;
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
  const share = channelShare(seenAs, scale);
  const tintSigma = TINT_SHARE * main.correction.castResidual;
  const photoSigma = Math.hypot(FLOOR_SIGMA, main.correction.residual, tintSigma, ANCHOR_SHARE * anchorResidual);
  const seen = views.map((view) => seeThrough(view, strip, scale));
  const read = (pad: ScalePad, i: number, doubts: readonly Doubt[]): PadReading => {
    const sample = strip.pads[i]!;
    const labs = seen.map((colours): Triple => linearToLab(colours[i]!));
    const own = seen[views.indexOf(main)]![i]!;
    const doubt = doubtSigma(doubts, pad.parameter);
    const sigma = Math.hypot(photoSigma, cameraSigma(own, share), scatterOf(sample, main.correction), doubt);
    const padViews = views.map(({ curves, weight }, k) => ({ lab: labs[k]!, curve: curves[i]!, weight }));
    return describePad(pad, sample, labs[views.indexOf(main)]!, placePad(padViews, main.curves[i]!, sigma));
  };
  const first = scale.pads.map((pad, i) => read(pad, i, judgement.doubts));
  const unmatched = first.filter(({ matched }) => !matched);
  if (unmatched.length >= first.length / 2 || misfitOf(first) > MOST_MISFIT) {
    const strange = unmatched.length > 0 ? unmatched : first;
    return refused(strange.map(({ quantity, outline }) => ({ code: 'strip-mismatch', parameter: quantity, outline })));
  }
  const doubts = [...judgement.doubts, ...aboutUnmatched(unmatched)];
  return {
    outcome: 'read',
    correction,
    pads: first.map((pad, i) => (pad.matched ? read(scale.pads[i]!, i, doubts) : pad)),
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
  return Math.sqrt(pads.reduce((sum, { deltaE }) => sum + Math.min(deltaE, MOST_DISTANCE) ** 2, 0) / pads.length);
}

/** A pad that is nowhere on its scale makes the scale itself doubtful, and so the other pads. */
function aboutUnmatched(unmatched: readonly PadReading[]): Doubt[] {
  return unmatched.flatMap(({ quantity, outline }): Doubt[] => [
    { code: 'pad-unmatched', sigma: 0, parameter: quantity, outline },
    { code: 'pad-unmatched', sigma: UNMATCHED_SIGMA, parameter: null, outline: null },
  ]);
}

/** The pads' colours (linear) in one view, freed of what they all share. */
function seeThrough(view: View, strip: StripSamples, scale: StripScale): Triple[] {
  const colours = view.curves.map((curve, i): PadColour => {
    const linear = view.toScale(strip.pads[i]!);
    return { linear, curve, position: nearestOn(curve, linearToLab(linear)).position };
  });
  const shared = fitSharedErrors(colours, baseOf(strip, scale, view));
  return colours.map(({ linear }) => shared.remove(linear));
}

function baseOf(strip: StripSamples, scale: StripScale, view: View) {
  const whole = strip.base.filter(({ clipped }) => clipped < MOST_CLIPPED_BASE);
  if (!scale.strip.base || whole.length === 0) return null;
  const linears = whole.map((sample) => view.toScale(sample));
  const median = [0, 1, 2].map((c) => medianOf(linears.map((linear) => linear[c]!)));
  return { linear: median as unknown as Triple, lab: scale.strip.base };
}

function medianOf(values: number[]): number {
  return values.toSorted((one, two) => one - two)[values.length >> 1]!;
}

function channelShare({ correction, views, anchorResidual }: Views, scale: StripScale): number {
  if (correction === 'anchors') return PAIRED_CHANNEL_SIGMA;
  // Where anchors were there to compare, their own misfit already says what the light has changed.
  const compared = views.length > 1 || anchorResidual > 0;
  return scale.origin === 'taught' && !compared ? UNPAIRED_CHANNEL_SIGMA : CHANNEL_SIGMA;
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

/** CIEDE2000 of independent errors of a share in the three channels: most for greys, least for strong colours. */
function cameraSigma(linear: Triple, share: number): number {
  const lab = linearToLab(linear);
  const errors = [0, 1, 2].map((channel) => {
    const off = linear.map((value, c) => (c === channel ? value * (1 + share) : value));
    return ciede2000(lab, linearToLab(off as unknown as Triple));
  });
  return Math.hypot(...errors);
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
