/** What is known about the water: readings with their spans, and what stands in for what is blank. */
import { completed, reachOf } from '../../measurement/measurement.ts';
import { QUANTITIES, type QuantityId } from '../../measurement/quantities.ts';
import { waterByAir } from '../../pool/climate.ts';
import { type Measured, type PlanInput } from '../../pool/schema.ts';
import type { Known, Span } from './spanned.ts';
import type { Assumption, AssumptionCode } from './types.ts';

/** Every reading the plan reasons with. Combined chlorine is worked out from the other two. */
export type KnownWater = Readonly<
  Record<Exclude<QuantityId, 'total-hardness' | 'total-chlorine'>, Known> & {
    'total-chlorine': Known | null;
    'combined-chlorine': Known | null;
  }
>;

/** How far beyond its scale an off-scale reading is taken to reach at most: only for predictions, never for a dose. */
function beyond(id: QuantityId, end: number, side: 'below' | 'above'): number {
  const { min, max } = QUANTITIES[id];
  if (id === 'ph') return side === 'above' ? Math.min(9, end + 0.8) : Math.max(6, end - 0.8);
  return side === 'above' ? Math.min(max, 2 * end) : min;
}

function fromReading(id: QuantityId, measured: Measured): Known {
  const { value, low, high, openBelow, openAbove } = reachOf(completed(id, measured));
  const { min, max } = QUANTITIES[id];
  return {
    value,
    low: Math.max(min, openBelow ? beyond(id, low, 'below') : low),
    high: Math.min(max, openAbove ? beyond(id, high, 'above') : high),
    from: 'measured',
    open: openAbove ? 'above' : openBelow && low > min ? 'below' : null,
  };
}

/** Stand-ins for what is blank: a usual value and how far it may be off. Common practice, no source. */
function standIn(id: keyof KnownWater, { pool, month }: PlanInput): Span {
  switch (id) {
    case 'ph':
      return { value: 7.5, low: 7, high: 8 };
    case 'total-alkalinity':
      return { value: 90, low: 50, high: 150 };
    case 'calcium-hardness':
      return { value: 250, low: 100, high: 500 };
    case 'cyanuric-acid':
      return pool.stabilised ? { value: 40, low: 0, high: 100 } : { value: 0, low: 0, high: 30 };
    case 'salt':
      return pool.chlorination === 'chlorinator'
        ? { value: 3000, low: 2000, high: 4500 }
        : { value: 1000, low: 300, high: 2500 };
    case 'temperature':
      return waterByAir(pool.climate, month, pool) ?? { value: 25, low: 15, high: 30 };
    case 'free-chlorine':
      return { value: 2, low: 0, high: 5 };
    default:
      // Nobody has borate in the water without having put it there.
      return { value: 0, low: 0, high: 0 };
  }
}

/** mg/L as B where borate is used at all; to show what leaving it out may mean. Common practice, no source: 30-50. */
export const USUAL_BORON_WHERE_USED = 50;

/**
 * Share of a total hardness that is calcium: all of it at most, hardly under six tenths in pool water.
 * Common practice, no source.
 */
const CALCIUM_SHARE = { value: 0.8, low: 0.6, high: 1 } as const;

export interface KnownAndAssumed {
  readonly known: KnownWater;
  readonly assumptions: readonly Assumption[];
}

export function knownWater(input: PlanInput): KnownAndAssumed {
  const { readings } = input;
  const assumptions: Assumption[] = [];
  const withoutSpan: QuantityId[] = [];
  const read = (id: QuantityId): Known | null => {
    const measured = readings[id];
    if (!measured) return null;
    const hasSpan = measured.low !== undefined || measured.high !== undefined || measured.offScale;
    const isSaid = (measured.method ?? 'unsaid') !== 'unsaid';
    if (!hasSpan && !isSaid && id !== 'temperature') withoutSpan.push(id);
    return fromReading(id, measured);
  };
  const orAssumed = (id: Exclude<AssumptionCode & QuantityId, 'calcium-hardness'> | 'calcium-hardness'): Known => {
    const measured = read(id);
    if (measured) return measured;
    const span = standIn(id, input);
    const { pool, month } = input;
    const isByAir = id === 'temperature' && waterByAir(pool.climate, month, pool) !== null;
    assumptions.push({ code: id, span, ...(isByAir && month && { month }) });
    return { ...span, from: 'assumed', open: null };
  };
  const free = orAssumed('free-chlorine');
  const total = read('total-chlorine');
  const known: KnownWater = {
    ph: orAssumed('ph'),
    'free-chlorine': free,
    'total-chlorine': total,
    'combined-chlorine': total && free.from === 'measured' ? difference(total, free) : null,
    'total-alkalinity': orAssumed('total-alkalinity'),
    'calcium-hardness':
      calcium(read('calcium-hardness'), read('total-hardness'), assumptions) ?? orAssumed('calcium-hardness'),
    'cyanuric-acid': orAssumed('cyanuric-acid'),
    salt: orAssumed('salt'),
    boron: orAssumed('boron'),
    temperature: orAssumed('temperature'),
  };
  if (withoutSpan.length > 0) {
    assumptions.push({ code: 'test-error', span: { value: 0, low: 0, high: 0 }, readings: withoutSpan });
  }
  return { known, assumptions };
}

function calcium(direct: Known | null, total: Known | null, assumptions: Assumption[]): Known | null {
  if (direct) return direct;
  if (!total) return null;
  assumptions.push({ code: 'calcium-from-total', span: CALCIUM_SHARE });
  return {
    value: CALCIUM_SHARE.value * total.value,
    low: CALCIUM_SHARE.low * total.low,
    high: CALCIUM_SHARE.high * total.high,
    from: 'derived',
    open: total.open,
  };
}

/** Total minus free; the errors of both add up. */
function difference(total: Known, free: Known): Known {
  return {
    value: Math.max(0, total.value - free.value),
    low: Math.max(0, total.low - free.high),
    high: Math.max(0, total.high - free.low),
    from: 'derived',
    open: null,
  };
}
