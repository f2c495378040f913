/** From the colours of card and strip to values: correction, then each pad on its scale. */
import { ciede2000 } from '../colour/difference.ts';
import { linearToLab, type Triple } from '../colour/lab.ts';
import { fitNeutrals, type NeutralCorrection } from '../colour/neutrals.ts';
import type { CardSamples, PadSample, StripSamples } from '../samples.ts';
import { curveThrough } from '../scale/curve.ts';
import type { ScalePad, StripScale } from '../scale/schema.ts';
import { placeOnCurve } from './place.ts';
import type { PadReading, Reading, WarningCode } from './reading.ts';

/**
 * What a phone's own colours leave over after the greys are right, CIEDE2000 (one standard deviation):
 * camera, light and dye don't see alike. Measured on simulated phones; see test/pictures.
 */
const CAMERA_SIGMA = 2;
const BLACK_ONLY_SIGMA = 0.5;
const UNEVEN_PERCENT = 40;
const CAST_LIMIT = 2;
const RESIDUAL_LIMIT = 3;

export function readStrip(card: CardSamples, strip: StripSamples, scale: StripScale, marksResidualMm: number): Reading {
  const correction = fitNeutrals(card);
  const warnings = warningsFor(card, correction);
  const widening = Math.hypot(correction.residual, card.variant === 'black' ? BLACK_ONLY_SIGMA : 0);
  const pads = scale.pads.map((pad, i) => readPad(pad, strip.pads[i]!, correction, Math.hypot(CAMERA_SIGMA, widening)));
  return {
    outcome: 'read',
    correction: 'neutrals',
    pads,
    warnings,
    quality: {
      neutralResidual: correction.residual,
      shadingPercent: correction.shadingPercent,
      marksResidualMm,
    },
  };
}

function warningsFor(card: CardSamples, correction: NeutralCorrection): WarningCode[] {
  const warnings: WarningCode[] = [];
  if (card.variant === 'black') warnings.push('black-only-card');
  if (correction.shadingPercent > UNEVEN_PERCENT) warnings.push('uneven-light');
  if (correction.castResidual > CAST_LIMIT) warnings.push('greys-not-neutral');
  else if (correction.residual > RESIDUAL_LIMIT) warnings.push('poor-fit');
  return warnings;
}

function readPad(pad: ScalePad, sample: PadSample, correction: NeutralCorrection, colourSigma: number): PadReading {
  const lab = linearToLab(correction.toLinear(sample.rgb, sample.xMm, sample.yMm));
  const sigma = Math.hypot(colourSigma, scatterOf(sample, correction));
  const placed = placeOnCurve(lab, curveThrough(pad), sigma);
  const found = placed.matched ? placed.best : null;
  return {
    parameter: pad.parameter,
    unit: pad.unit,
    value: found?.value ?? null,
    low: found?.low ?? null,
    high: found?.high ?? null,
    alternative: placed.matched ? placed.alternative : null,
    offScale: placed.matched ? placed.offScale : null,
    matched: placed.matched,
    deltaE: placed.deltaE,
    lab,
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
