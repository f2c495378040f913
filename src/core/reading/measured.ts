/** What a pad's reading is as a measurement of the water. */
import { completed, type Estimate, type Measurement, type UsedScale } from '../measurement/measurement.ts';
import type { TypedMethod } from '../measurement/methods.ts';
import type { QuantityId } from '../measurement/quantities.ts';
import type { StripScale } from '../scale/schema.ts';
import type { PadReading } from './reading.ts';
import { judge, type Judgement } from './word.ts';

/** The value of another test, typed in the place of a pad's. */
export interface ByHand {
  readonly value: number;
  readonly method: TypedMethod;
}

/** @param time ISO 8601, UTC; null where the pad matched nothing */
export function measuredByPad(pad: PadReading, scale: UsedScale, time: string): Measurement | null {
  const { quantity, value, low, high, alternative, offScale, openBelow, openAbove } = pad;
  if (value === null || low === null || high === null) return null;
  const found = { alternative: alternative && around(alternative), offScale, openBelow, openAbove };
  return { quantity, ...around({ value, low, high }), ...found, method: 'photo', scale, time };
}

/** The best value of a colour beyond the end of its scale lies minutely outside of what the colour allows. */
function around({ value, low, high }: Estimate): Estimate {
  return { value, low: Math.min(low, value), high: Math.max(high, value) };
}

export function measuredByHand(quantity: QuantityId, byHand: ByHand, time: string): Measurement {
  return { ...completed(quantity, byHand), scale: null, time };
}

export function usedScale({ id, name, origin }: Pick<StripScale, 'id' | 'name' | 'origin'>): UsedScale {
  return { id, name, origin };
}

/** What is said of the value that counts: the one by hand, else the photo's. */
export function judgementOf({
  pad,
  byHand,
  target,
}: {
  readonly pad: PadReading;
  readonly byHand: ByHand | null;
  readonly target: { readonly low: number; readonly high: number } | null;
}): Judgement | null {
  return judge(byHand === null ? pad : { matched: true, ...completed(pad.quantity, byHand) }, target);
}
