/** What a scale needs to learn by. Loaded when it does. */
import { intervalFor } from '../../core/measurement/methods.ts';
import type { QuantityId } from '../../core/measurement/quantities.ts';
import type { ByHand } from '../../core/reading/measured.ts';

export { withPrintOf } from '../../core/scale/carry-print.ts';
export { withKnown } from '../../core/scale/learn.ts';

/** Two-sided 90 % of the normal distribution. */
const Z90 = 1.645;
/** Of water made to a value: scales and jugs, common practice, no source. */
const MADE = 0.05;

/** One standard deviation of a value by hand, in its unit. */
export function doubtOf(quantity: QuantityId, { value, method }: ByHand): number {
  if (method !== 'drops' && method !== 'meter') return quantity === 'ph' ? 0.1 : MADE * value;
  const { low, high } = intervalFor(quantity, value, method);
  return (high - low) / 2 / Z90;
}
