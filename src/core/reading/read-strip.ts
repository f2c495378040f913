/** From the colours of card and strip to values: correction, then each pad on its scale. */
import { ciede2000 } from '../colour/difference.ts';
import { linearToLab, type Triple } from '../colour/lab.ts';
import { fitNeutrals, type NeutralCorrection } from '../colour/neutrals.ts';
import type { CardSamples, PadSample, StripSamples } from '../samples.ts';
import { curveThrough } from '../scale/curve.ts';
import type { ScalePad, StripScale } from '../scale/schema.ts';
import { nearestOn, placeOnCurve } from './place.ts';
import type { PadReading, Reading, WarningCode } from './reading.ts';
import { fitSharedErrors, type PadColour, type SharedErrors } from './together.ts';

/**
 * What camera, light and dye leave over for a single pad: an error of this share in each linear channel
 * (one standard deviation), and a floor in CIEDE2000. Set on simulated phones so that nine in ten intervals
 * hold the truth.
 */
const CHANNEL_SIGMA = 0.045;
const FLOOR_SIGMA = 1;
const UNEVEN_PERCENT = 40;
const CAST_LIMIT = 2;
const RESIDUAL_LIMIT = 3;

/** Refuses when half the pads or more match no part of their scales: another strip, or one lying wrong. */
export function readStrip(card: CardSamples, strip: StripSamples, scale: StripScale, marksResidualMm: number): Reading {
  const correction = fitNeutrals(card);
  const colours = padColours(strip, scale, correction);
  const shared = fitSharedErrors(colours, baseOf(strip, scale, correction));
  const sigma = Math.hypot(FLOOR_SIGMA, correction.residual);
  const pads = scale.pads.map((pad, i) => readPad(pad, strip.pads[i]!, colours[i]!, shared, sigma, correction));
  if (pads.filter((pad) => !pad.matched).length >= pads.length / 2) {
    return { outcome: 'refused', reasons: ['strip-mismatch'] };
  }
  return {
    outcome: 'read',
    correction: 'neutrals',
    pads,
    warnings: warningsFor(card, correction),
    quality: {
      neutralResidual: correction.residual,
      shadingPercent: correction.shadingPercent,
      marksResidualMm,
    },
  };
}

function padColours(strip: StripSamples, scale: StripScale, correction: NeutralCorrection): PadColour[] {
  return scale.pads.map((pad, i) => {
    const sample = strip.pads[i]!;
    const linear = correction.toLinear(sample.rgb, sample.xMm, sample.yMm);
    const curve = curveThrough(pad);
    return { linear, curve, position: nearestOn(curve, linearToLab(linear)).position };
  });
}

function baseOf(strip: StripSamples, scale: StripScale, correction: NeutralCorrection) {
  if (!scale.strip.base || strip.base.length === 0) return null;
  const linears = strip.base.map((sample) => correction.toLinear(sample.rgb, sample.xMm, sample.yMm));
  const median = [0, 1, 2].map((c) => medianOf(linears.map((linear) => linear[c]!)));
  return { linear: median as unknown as Triple, lab: scale.strip.base };
}

function medianOf(values: number[]): number {
  return values.toSorted((one, two) => one - two)[values.length >> 1]!;
}

function warningsFor(card: CardSamples, correction: NeutralCorrection): WarningCode[] {
  const warnings: WarningCode[] = [];
  if (card.variant === 'black') warnings.push('black-only-card');
  if (correction.shadingPercent > UNEVEN_PERCENT) warnings.push('uneven-light');
  if (correction.castResidual > CAST_LIMIT) warnings.push('greys-not-neutral');
  else if (correction.residual > RESIDUAL_LIMIT) warnings.push('poor-fit');
  return warnings;
}

function readPad(
  pad: ScalePad,
  sample: PadSample,
  colour: PadColour,
  shared: SharedErrors,
  colourSigma: number,
  correction: NeutralCorrection,
): PadReading {
  const linear = shared.remove(colour.linear);
  const lab = linearToLab(linear);
  const sigma = Math.hypot(colourSigma, cameraSigma(linear), scatterOf(sample, correction));
  const placed = placeOnCurve(lab, colour.curve, sigma);
  const found = placed.matched ? placed.best : null;
  return {
    parameter: pad.parameter,
    unit: pad.unit,
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
    outline: sample.outline,
  };
}

/** CIEDE2000 of independent errors of CHANNEL_SIGMA in the three channels: most for greys, least for strong colours. */
function cameraSigma(linear: Triple): number {
  const lab = linearToLab(linear);
  const errors = [0, 1, 2].map((channel) => {
    const off = linear.map((value, c) => (c === channel ? value * (1 + CHANNEL_SIGMA) : value));
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
