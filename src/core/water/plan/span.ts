/** Spans: a best value and the ends it may lie between. */
import type { Target, TargetSpan } from '../targets.ts';
import type { Known, Span } from './spanned.ts';
import type { Judgement } from './types.ts';

export function spanOf(value: number, others: readonly number[]): Span {
  return { value, low: Math.min(value, ...others), high: Math.max(value, ...others) };
}

/** A reading as the steps before have left it. */
export function knownAs(known: Known, now: Span): Known {
  const same = Math.abs(now.low - known.low) + Math.abs(now.high - known.high) <= EPSILON * (1 + Math.abs(known.high));
  return same || known.from === 'assumed' ? { ...known, ...now } : { ...now, from: 'derived', open: null };
}

/** Keeps rounding from turning an end into a doubt. */
export const EPSILON = 1e-6;

/** Where a span lies against a target. Only what lies wholly outside is 'low' or 'high'. */
export function judge({ low, high }: Pick<Span, 'low' | 'high'>, target: Pick<TargetSpan, 'low' | 'high'>): Judgement {
  if (high < target.low - EPSILON) return 'low';
  if (low > target.high + EPSILON) return 'high';
  const below = low < target.low - EPSILON;
  const above = high > target.high + EPSILON;
  if (below && above) return 'maybe-either';
  if (below) return 'maybe-low';
  return above ? 'maybe-high' : 'in-range';
}

export function isInside(value: number, target: Pick<Target, 'low' | 'high'>): boolean {
  return value >= target.low - EPSILON && value <= target.high + EPSILON;
}
