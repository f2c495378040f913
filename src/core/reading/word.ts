/** The word beside a value. */
import type { PadReading, Word } from './reading.ts';

/** @param target where the value should lie; without one, only what the pad itself says can be worded */
export function wordOf(
  pad: Pick<PadReading, 'matched' | 'value' | 'offScale'>,
  target: { readonly low: number; readonly high: number } | null,
): Word | null {
  if (!pad.matched || pad.value === null) return 'unmatched';
  if (pad.offScale !== null) return 'off-scale';
  if (target === null) return null;
  if (pad.value < target.low) return 'low';
  return pad.value > target.high ? 'high' : 'in-range';
}
