/** Where each reading of a strip should lie. */
import type { QuantityId } from '../measurement/quantities.ts';
import type { TargetId } from '../water/targets.ts';

export interface Span {
  readonly low: number;
  readonly high: number;
}

export type Spans = Partial<Record<QuantityId, Span>>;

/** Total chlorine has no span of its own; a hardness pad reads calcium and magnesium together. */
const TARGET_OF: Partial<Record<QuantityId, TargetId>> = {
  'free-chlorine': 'free-chlorine',
  ph: 'ph',
  'total-alkalinity': 'total-alkalinity',
  'total-hardness': 'calcium-hardness',
  'calcium-hardness': 'calcium-hardness',
  'cyanuric-acid': 'cyanuric-acid',
  salt: 'salt',
};

export function spansFrom(targets: Readonly<Record<TargetId, Span>>): Spans {
  const entries = Object.entries(TARGET_OF) as [QuantityId, TargetId][];
  return Object.fromEntries(entries.map(([parameter, id]) => [parameter, pick(targets[id])]));
}

function pick({ low, high }: Span): Span {
  return { low, high };
}
