/**
 * Several photos of one strip, read together. What differs from photo to photo averages out: noise, glare, and how the phone
 * turned hues that time. What they share doesn't: the print, the scale, and the strip's own dyes.
 */
import { curveThrough } from '../scale/curve.ts';
import type { ScalePad, StripScale } from '../scale/schema.ts';
import type { PadReading, ReadOutcome } from './reading.ts';

/**
 * Share of a pad's variance that all photos of it have in common: 0.81 in 240 pairs of simulated readings, by one phone in one
 * light. Most is chart ink, scale and print; so further photos help, but not by much.
 */
const COMMON = 0.8;
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
  return {
    ...first,
    together: readings,
    pads: scale.pads.map((pad, i) =>
      padTogether(
        readings.map(({ pads }) => pads[i]!),
        pad,
      ),
    ),
    warnings: [...new Set(readings.flatMap(({ warnings }) => warnings))],
    places: readings.flatMap(({ places }) => places),
  };
}

function padTogether(seen: readonly PadReading[], pad: ScalePad): PadReading {
  const curve = curveThrough(pad);
  const told = seen.flatMap((one) => {
    if (one.value === null) return [];
    const [at, low, high] = [one.value, one.low!, one.high!].map(curve.positionOf) as [number, number, number];
    // An interval that the scale's end cuts off says too little of how sure it was.
    const half = Math.max(0.1, one.openBelow ? high - at : one.openAbove ? at - low : (high - low) / 2);
    return [{ one, at, sigma: half / Z90 }];
  });
  const surest = told.reduce<(typeof told)[number] | null>(
    (best, next) => (best && best.sigma <= next.sigma ? best : next),
    null,
  );
  if (!surest) return seen[0]!;
  // Off the scale or with two possible values, photos aren't averaged: the surest one counts.
  if (told.length < 2 || told.some(({ one }) => one.offScale !== null || one.alternative !== null)) return surest.one;
  const weights = told.map(({ sigma }) => 1 / sigma ** 2);
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const at = told.reduce((sum, one, i) => sum + (weights[i]! / total) * one.at, 0);
  const variance = told.length / total;
  const scatter = told.reduce((sum, one) => sum + (one.at - at) ** 2, 0) / (told.length - 1);
  // Photos that disagree by more than they may are all less sure than they say.
  const single = Math.max((1 - COMMON) * variance, scatter);
  const reach = Z90 * Math.sqrt(COMMON * variance + single / told.length);
  const { one } = surest;
  return {
    ...one,
    value: curve.valueAt(at),
    low: curve.valueAt(at - reach),
    high: curve.valueAt(at + reach),
    openBelow: one.openBelow && at - reach < 0,
    openAbove: one.openAbove && at + reach > curve.length,
  };
}
