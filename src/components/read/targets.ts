/** Where each reading of the sheet should lie: the site's defaults for a home pool, worked out at build time. */
import type { ParameterId } from '../../core/reading/parameters.ts';
import type { TargetId } from '../../core/water/targets.ts';

export interface Span {
  readonly low: number;
  readonly high: number;
}

export type Spans = Partial<Record<ParameterId, Span>>;

/** Total chlorine has no span of its own; a hardness pad reads calcium and magnesium together. */
const TARGET_OF: Partial<Record<ParameterId, TargetId>> = {
  'free-chlorine': 'free-chlorine',
  ph: 'ph',
  'total-alkalinity': 'total-alkalinity',
  'total-hardness': 'calcium-hardness',
  'cyanuric-acid': 'cyanuric-acid',
  salt: 'salt',
};

export function spansFrom(targets: Readonly<Record<TargetId, Span>>): Spans {
  const entries = Object.entries(TARGET_OF) as [ParameterId, TargetId][];
  return Object.fromEntries(entries.map(([parameter, id]) => [parameter, pick(targets[id])]));
}

function pick({ low, high }: Span): Span {
  return { low, high };
}
