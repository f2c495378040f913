/**
 * Several photos of one strip, read together. What differs from photo to photo averages out: noise, glare, and how the phone
 * turned hues that time. What they share doesn't: the print, the scale, and the strip's own dyes.
 */
import { curveThrough, type ScaleCurve } from '../scale/curve.ts';
import type { ScalePad, StripScale } from '../scale/schema.ts';
import type { PadReading, ReadOutcome } from './reading.ts';

/**
 * Share of a pad's variance that all photos of it have in common: 0.81 in 240 pairs of simulated readings, by one phone in one
 * light. Most is chart ink, scale and print; so further photos help, but not by much.
 */
const COMMON = 0.8;
/**
 * Standard deviations of the two together. Photos of one strip share most of their error, so that by it they differ by 0.45 of
 * one standard deviation: at this distance it is another strip, or another pad.
 */
const APART = 2.6;
/** Two-sided 90 % of the normal distribution. */
const Z90 = 1.645;

/**
 * @param given readings of the same strip by the same scale, at least one; what was read together counts by its photos
 * @returns the first of them, with the pads as all of them tell
 */
export function readTogether(given: readonly ReadOutcome[], scale: StripScale): ReadOutcome {
  const readings = given.flatMap((one) => one.together ?? [one]);
  const [first] = readings;
  if (!first) throw new RangeError('no reading was given');
  if (readings.length === 1) return first;
  const pads = scale.pads.map((pad, i) =>
    padTogether(
      readings.map((one) => one.pads[i]!),
      pad,
    ),
  );
  const warnings = new Set(readings.flatMap(({ warnings }) => warnings));
  if (pads.some(({ disagrees }) => disagrees)) warnings.add('photos-disagree');
  return {
    ...first,
    together: readings,
    pads: pads.map(({ told }) => told),
    warnings: [...warnings],
    places: readings.flatMap(({ places }) => places),
  };
}

interface Told {
  readonly one: PadReading;
  /** Along the curve, and its standard deviation. */
  readonly at: number;
  readonly sigma: number;
}

function padTogether(seen: readonly PadReading[], pad: ScalePad): { told: PadReading; disagrees: boolean } {
  const curve = curveThrough(pad);
  const told = seen.flatMap((one): Told[] => {
    if (one.value === null) return [];
    const [at, low, high] = [one.value, one.low!, one.high!].map(curve.positionOf) as [number, number, number];
    // An interval that the scale's end cuts off says too little of how sure it was.
    const half = Math.max(0.1, one.openBelow ? high - at : one.openAbove ? at - low : (high - low) / 2);
    return [{ one, at, sigma: half / Z90 }];
  });
  const surest = told.reduce<Told | null>((best, next) => (best && best.sigma <= next.sigma ? best : next), null);
  if (!surest) return { told: seen[0]!, disagrees: false };
  const apart = told.some((a) => told.some((b) => Math.abs(a.at - b.at) > APART * Math.hypot(a.sigma, b.sigma)));
  if (apart) return { told: holdingAll(seen, surest.one), disagrees: true };
  return { told: averaged(told, surest.one, curve), disagrees: false };
}

/** Where nobody can say which photo is right. */
function holdingAll(seen: readonly PadReading[], one: PadReading): PadReading {
  const values = seen.filter(({ value }) => value !== null);
  return {
    ...one,
    offScale: null,
    alternative: null,
    low: Math.min(...values.map(({ low }) => low!)),
    high: Math.max(...values.map(({ high }) => high!)),
    openBelow: values.some(({ openBelow, offScale }) => openBelow || offScale === 'below'),
    openAbove: values.some(({ openAbove, offScale }) => openAbove || offScale === 'above'),
  };
}

function averaged(told: readonly Told[], surest: PadReading, curve: ScaleCurve): PadReading {
  // Off the scale or with two possible values, photos aren't averaged: the surest one counts.
  if (told.length < 2 || told.some(({ one }) => one.offScale !== null || one.alternative !== null)) return surest;
  const weights = told.map(({ sigma }) => 1 / sigma ** 2);
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const at = told.reduce((sum, one, i) => sum + (weights[i]! / total) * one.at, 0);
  const variance = told.length / total;
  const scatter = told.reduce((sum, one) => sum + (one.at - at) ** 2, 0) / (told.length - 1);
  // Photos that disagree by more than they may are all less sure than they say.
  const single = Math.max((1 - COMMON) * variance, scatter);
  const reach = Z90 * Math.sqrt(COMMON * variance + single / told.length);
  return {
    ...surest,
    value: curve.valueAt(at),
    low: curve.valueAt(at - reach),
    high: curve.valueAt(at + reach),
    openBelow: surest.openBelow && at - reach < 0,
    openAbove: surest.openAbove && at + reach > curve.length,
  };
}
