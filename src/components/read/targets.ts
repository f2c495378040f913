/** Where each reading of the sheet should lie: as the plan page last worked it out, else the site's defaults. */
import { remember, remembered } from '../../browser/remembered.ts';
import { PAD_QUANTITIES, type PadQuantity } from '../../core/measurement/quantities.ts';
import type { TargetId } from '../../core/water/targets.ts';

export interface Span {
  readonly low: number;
  readonly high: number;
}

export type Spans = Partial<Record<PadQuantity, Span>>;

/** Total chlorine has no span of its own; a hardness pad reads calcium and magnesium together. */
const TARGET_OF: Partial<Record<PadQuantity, TargetId>> = {
  'free-chlorine': 'free-chlorine',
  ph: 'ph',
  'total-alkalinity': 'total-alkalinity',
  'total-hardness': 'calcium-hardness',
  'cyanuric-acid': 'cyanuric-acid',
  salt: 'salt',
};

export function spansFrom(targets: Readonly<Record<TargetId, Span>>): Spans {
  const entries = Object.entries(TARGET_OF) as [PadQuantity, TargetId][];
  return Object.fromEntries(entries.map(([parameter, id]) => [parameter, pick(targets[id])]));
}

function pick({ low, high }: Span): Span {
  return { low, high };
}

const KEY = 'spans';

export function keepSpans(spans: Spans): void {
  remember(KEY, JSON.stringify(spans));
}

/** The spans of the visitor's own pool; null before the plan page has worked them out. */
export function keptSpans(): Spans | null {
  try {
    const kept = JSON.parse(remembered(KEY) ?? 'null') as Partial<Record<PadQuantity, unknown>> | null;
    if (!kept) return null;
    const entries = PAD_QUANTITIES.filter((id) => isSpan(kept[id])).map((id) => [id, kept[id]]);
    return entries.length > 0 ? (Object.fromEntries(entries) as Spans) : null;
  } catch {
    return null;
  }
}

function isSpan(value: unknown): value is Span {
  const { low, high } = (value ?? {}) as Partial<Record<keyof Span, unknown>>;
  return Number.isFinite(low) && Number.isFinite(high) && (low as number) <= (high as number);
}
