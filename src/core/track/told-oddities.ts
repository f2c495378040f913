/** All that is odd in a pool's log, in one shape, for whoever tells it. */
import type { QuantityId } from '../measurement/quantities.ts';
import type { SlowEstimate } from './estimate-slow.ts';
import type { ChlorineState } from './fast-chlorine.ts';
import type { PhState } from './fast-ph.ts';
import type { Misfit } from './follow.ts';
import { isoOf } from './from-log.ts';
import { dayOf, type Oddity as SlowOddity } from './oddities.ts';

export interface OddityTold {
  readonly kind: SlowOddity['kind'];
  readonly quantity: QuantityId;
  /** ISO 8601: of the reading, or of the readings between which it changed. */
  readonly from: string;
  readonly to: string;
  /** By how much it changed, or the reading and what was expected. */
  readonly change: number | null;
  readonly value: number | null;
  /** Of a reading that only says 'more than' or 'less than' its value. */
  readonly bound: 'above' | 'below' | null;
  readonly expected: number | null;
}

export function odditiesOf(
  slow: SlowEstimate | null,
  chlorine: ChlorineState | null,
  ph: PhState | null,
): OddityTold[] {
  return [
    ...(slow?.oddities ?? []).map(told),
    ...(chlorine?.misfits ?? []).map((misfit) => toldMisfit('free-chlorine', misfit)),
    ...(ph?.misfits ?? []).map((misfit) => toldMisfit('ph', misfit)),
  ].sort((a, b) => (a.to < b.to ? -1 : 1));
}

function told(oddity: SlowOddity): OddityTold {
  const to = isoOf(dayOf(oddity));
  if (oddity.kind === 'jump') {
    const { kind, quantity, after, change } = oddity;
    return { kind, quantity, from: isoOf(after), to, change, value: null, bound: null, expected: null };
  }
  const { kind, quantity, value, expected } = oddity;
  return { kind, quantity, from: to, to, change: null, value, bound: null, expected };
}

function toldMisfit(quantity: QuantityId, { kind, day, value, bound, expected }: Misfit): OddityTold {
  return { kind, quantity, from: isoOf(day), to: isoOf(day), change: null, value, bound, expected };
}
