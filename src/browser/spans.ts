/** Where each reading of the sheet should lie, as the plan page last worked it out. */
import { QUANTITY_IDS, type QuantityId } from '../core/measurement/quantities.ts';
import type { Span, Spans } from '../core/reading/spans.ts';
import { remember, remembered } from './remembered.ts';

const KEY = 'spans';

export function keepSpans(spans: Spans): void {
  remember(KEY, JSON.stringify(spans));
}

/** The spans of the visitor's own pool; null before the plan page has worked them out. */
export function keptSpans(): Spans | null {
  try {
    const kept = JSON.parse(remembered(KEY) ?? 'null') as Partial<Record<QuantityId, unknown>> | null;
    if (!kept) return null;
    const entries = QUANTITY_IDS.filter((id) => isSpan(kept[id])).map((id) => [id, kept[id]]);
    return entries.length > 0 ? (Object.fromEntries(entries) as Spans) : null;
  } catch {
    return null;
  }
}

function isSpan(value: unknown): value is Span {
  const { low, high } = (value ?? {}) as Partial<Record<keyof Span, unknown>>;
  return Number.isFinite(low) && Number.isFinite(high) && (low as number) <= (high as number);
}
