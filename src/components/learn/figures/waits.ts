/** Waits between steps and before tests: the plan's own, so that page and plan say the same. */
import { ACID_TO_CHLORINE, CARBONATE_TO_CALCIUM, MIN_HOURS } from '../../../core/water/plan/order.ts';
import { SHOWS_AFTER_HOURS } from '../../../core/pool/test-times.ts';
import { durationText } from '../../../words/plan/numbers.ts';

export function betweenProducts(): string {
  return durationText(MIN_HOURS);
}

export function acidToChlorine(): string {
  return durationText(ACID_TO_CHLORINE);
}

export function sodaToCalcium(): string {
  return durationText(CARBONATE_TO_CALCIUM);
}

export function showsAfter(reading: keyof typeof SHOWS_AFTER_HOURS): string {
  return durationText(SHOWS_AFTER_HOURS[reading]);
}
