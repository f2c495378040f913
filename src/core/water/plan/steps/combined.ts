/** Combined chlorine that is likely too high. */
import type { Context } from '../draft.ts';

/** Likely too much of it: what would weaken chlorine, or take it out, waits as if it were certain. */
export function isMaybeCombined({ known, targets }: Pick<Context, 'known' | 'targets'>): boolean {
  const combined = known['combined-chlorine'];
  return combined !== null && combined.value > targets['combined-chlorine'].high;
}
