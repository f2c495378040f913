/** A need that may be none is not dosed for: what to do instead. */
import type { TargetId } from '../targets.ts';
import { NOTHING, type Context, type Drafted } from './draft.ts';
import type { HoldReason, HoldRemedy, Judgement } from './types.ts';

export function holdWith(target: TargetId, reason: HoldReason, remedy: HoldRemedy): Drafted {
  return { drafts: [], holds: [{ target, reason, remedy }] };
}

/** Nothing for what is in range or only too high; a hold for what can't be told. */
export function holdFor({ known }: Context, target: keyof Context['known'] & TargetId, judgement: Judgement): Drafted {
  const { [target]: one } = known;
  if (!one || one.from === 'assumed') return holdWith(target, 'not-measured', 'measure');
  if (judgement === 'low' || judgement === 'high' || judgement === 'in-range') return NOTHING;
  if (one.open !== null)
    return holdWith(target, 'off-scale', canBeDiluted(target, one.open) ? 'dilute-sample' : 'better-test');
  return holdWith(target, 'straddles', isWide(target, one) ? 'better-test' : 'repeat-test');
}

/** What is dissolved halves when its sample is mixed with as much pure water; pH answers to its buffers instead. */
function canBeDiluted(target: TargetId, open: 'above' | 'below'): boolean {
  return open === 'above' && target !== 'ph';
}

/** Spans wider than this are a strip's: testing again the same way won't settle it. Common practice, no source. */
const WIDE: Partial<Record<TargetId, { readonly least: number; readonly share: number }>> = {
  ph: { least: 0.3, share: 0 },
  'free-chlorine': { least: 1, share: 0.4 },
  'total-alkalinity': { least: 25, share: 0.3 },
  'calcium-hardness': { least: 40, share: 0.3 },
  'cyanuric-acid': { least: 15, share: 0.4 },
  salt: { least: 400, share: 0.2 },
};

function isWide(target: TargetId, { value, low, high }: { value: number; low: number; high: number }): boolean {
  const limit = WIDE[target];
  return limit !== undefined && high - low > Math.max(limit.least, limit.share * value);
}
