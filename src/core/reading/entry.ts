/** One pad as the sheet holds it: what the photo gave, and what a person put in its place. */
import { completed, type Estimate, type Measurement, type UsedScale } from '../measurement/measurement.ts';
import { type ByHand, measuredByHand, measuredByPad } from './measured.ts';
import type { PadReading } from './reading.ts';
import type { TimingCode } from './timing.ts';
import type { ScalePad } from '../scale/schema.ts';

export interface Entry {
  readonly pad: PadReading;
  readonly scalePad: ScalePad;
  readonly target: { readonly low: number; readonly high: number } | null;
  /** What a practice photo was simulated with; null for a real photo. */
  readonly truth: number | null;
  /** The value of another test, entered by hand; null while the photo's stands. */
  readonly byHand: ByHand | null;
  /** The photo was taken outside the reading window. */
  readonly timing: TimingCode | null;
}

/** What the photo says, best first. */
export function photoEstimates({ value, low, high, alternative }: PadReading): Estimate[] {
  if (value === null || low === null || high === null) return [];
  return alternative ? [{ value, low, high }, alternative] : [{ value, low, high }];
}

export function estimatesOf({ pad, byHand }: Pick<Entry, 'pad' | 'byHand'>): Estimate[] {
  return byHand === null ? photoEstimates(pad) : [completed(pad.quantity, byHand)];
}

/** What counts as the measurement: the value by hand, else the photo's; null where there is neither. */
export function measurementOf({ pad, byHand }: Entry, scale: UsedScale, time: string): Measurement | null {
  return byHand === null ? measuredByPad(pad, scale, time) : measuredByHand(pad.quantity, byHand, time);
}
