/** What a plan may start from: the readings at hand beside the estimate from all readings, and which of the two counts. */
import type { Entry, Pool, ReadingEntry } from '../log/schema.ts';
import { countingValues } from '../log/schema.ts';
import type { Estimate } from '../measurement/measurement.ts';
import { reachOf } from '../measurement/measurement.ts';
import type { QuantityId } from '../measurement/quantities.ts';
import { waterNow } from './estimate.ts';
import type { OddityTold } from './told-oddities.ts';

export type Choice =
  /** Both say about the same, and the estimate is the surer. */
  | 'estimate-is-surer'
  /** Not read this time. */
  | 'only-estimate'
  /** The reading knows as much. */
  | 'reading-is-as-sure'
  /** It moves within hours, so that only the reading speaks of now. */
  | 'moves-in-hours'
  /** No two readings of it are in the log. */
  | 'only-reading'
  /** The reading doesn't fit, and nobody can say which of the two is right; the estimate is of the others alone. */
  | 'reading-does-not-fit';

export interface StartRow {
  readonly quantity: QuantityId;
  readonly reading: Estimate | null;
  readonly estimate: Estimate | null;
  readonly uses: 'reading' | 'estimate';
  readonly why: Choice;
}

/** Of its width, what an estimate must at least take away to count as surer. */
const SURER = 0.9;
/** They move within hours: earlier readings say nothing of now, however many there are. */
const QUICK: ReadonlySet<QuantityId> = new Set(['ph', 'free-chlorine', 'temperature', 'total-chlorine']);

/**
 * @param entries of the pool before the reading
 * @param reading at hand, as an entry of that moment
 */
export function planStart(
  entries: readonly Entry[],
  pool: Pool,
  reading: ReadingEntry,
): { readonly rows: readonly StartRow[]; readonly oddities: readonly OddityTold[] } {
  const own = { ...reading, poolId: pool.id };
  const before = entries.filter(({ time }) => time < reading.time);
  const now = waterNow([...before, own], pool, reading.time);
  const oddities = (now?.oddities ?? []).filter(({ kind, to }) => kind === 'unconfirmed' && to === reading.time);
  const values = new Map(countingValues(own).map((value) => [value.quantity, reachOf(value)]));
  const open = new Set([...values].filter(([, one]) => one.openAbove || one.openBelow).map(([quantity]) => quantity));
  const quantities = [...new Set([...values.keys(), ...(now?.quantities ?? []).map(({ quantity }) => quantity)])];
  // Whether the water has changed or the reading is wrong nobody knows yet: the others are told without it.
  const others = oddities.length > 0 ? waterNow(before, pool, reading.time) : null;
  const rows = quantities.flatMap((quantity): StartRow[] => {
    const read = values.get(quantity) ?? null;
    const isOdd = oddities.some((one) => one.quantity === quantity);
    const known = (isOdd ? others : now)?.quantities.find((one) => one.quantity === quantity) ?? null;
    const estimate = known && (isOdd || known.readings > (read ? 1 : 0)) ? known : null;
    if (!read && (!estimate || QUICK.has(quantity))) return [];
    const why = choiceOf(quantity, read, estimate, isOdd, open.has(quantity));
    const uses = why === 'estimate-is-surer' || why === 'only-estimate' ? 'estimate' : 'reading';
    return [{ quantity, reading: read && plainOf(read), estimate: estimate && plainOf(estimate), uses, why }];
  });
  return { rows, oddities };
}

function choiceOf(
  quantity: QuantityId,
  read: Estimate | null,
  estimate: Estimate | null,
  isOdd: boolean,
  isOpen: boolean,
): Choice {
  if (!read) return 'only-estimate';
  if (!estimate) return 'only-reading';
  if (isOdd) return 'reading-does-not-fit';
  if (QUICK.has(quantity)) return 'moves-in-hours';
  const isSurer = isOpen || estimate.high - estimate.low < SURER * (read.high - read.low);
  return isSurer ? 'estimate-is-surer' : 'reading-is-as-sure';
}

function plainOf({ value, low, high }: Estimate): Estimate {
  return { value, low, high };
}
