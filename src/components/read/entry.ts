/** One pad as the sheet holds it: what the photo gave, and what a person put in its place. */
import type { HandoverReading } from '../../browser/handover.ts';
import type { PadReading } from '../../core/reading/reading.ts';
import type { TimingCode } from '../../core/reading/timing.ts';
import type { ScalePad } from '../../core/scale/schema.ts';
import type { Estimate } from '../ribbon/ribbon.ts';

export interface Entry {
  readonly pad: PadReading;
  readonly scalePad: ScalePad;
  readonly target: { readonly low: number; readonly high: number } | null;
  /** What a practice photo was simulated with; null for a real photo. */
  readonly truth: number | null;
  /** The value of another test, entered by hand; null while the photo's stands. */
  readonly byHand: number | null;
  /** The photo was taken outside the reading window. */
  readonly timing: TimingCode | null;
}

/** What the photo says, best first. */
export function photoEstimates({ value, low, high, alternative }: PadReading): Estimate[] {
  if (value === null || low === null || high === null) return [];
  return alternative ? [{ value, low, high }, alternative] : [{ value, low, high }];
}

export function estimatesOf({ pad, byHand }: Entry): Estimate[] {
  return byHand === null ? photoEstimates(pad) : [{ value: byHand, low: byHand, high: byHand }];
}

/** Two fitting stretches are handed on as the one interval that holds both. Null when there is nothing to hand on. */
export function toHandover(entry: Entry): HandoverReading | null {
  const estimates = estimatesOf(entry);
  const best = estimates[0];
  if (!best) return null;
  return {
    parameter: entry.pad.parameter,
    unit: entry.pad.unit,
    value: best.value,
    low: Math.min(...estimates.map(({ low }) => low)),
    high: Math.max(...estimates.map(({ high }) => high)),
    offScale: entry.byHand === null ? entry.pad.offScale : null,
    origin: entry.byHand === null ? 'photo' : 'hand',
  };
}
