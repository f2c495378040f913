/** One reading into a filter: its bias, its own error, and what only says 'more than' or 'less than'. */
import { numberForBound } from './bound.ts';
import type { Filter, Row } from './filter.ts';
import { stretchOf, type Stretch } from './stretch.ts';

export interface Seen {
  readonly value: number;
  /** Standard deviation of the whole error. */
  readonly deviation: number;
  /** The same below and above the value, where the interval says so: blocks needn't lie equally far apart. */
  readonly sides?: readonly [below: number, above: number];
  readonly bound: 'above' | 'below' | null;
  readonly quantity: string;
  readonly method: string;
  readonly sharedVariance: number | null;
}

/** What all readings of a quantity by one method have in common. */
export interface Method {
  /** Where the state holds its bias, in standard deviations of the whole error. */
  readonly place: number;
  readonly stretch: Stretch;
  readonly quantity: string;
  /** How many readings it made. */
  readonly count: number;
}

export const methodKey = ({ method, quantity }: Pick<Seen, 'method' | 'quantity'>) => `${quantity} ${method}`;

/** @param firstPlace of the state that is free for biases */
export function methodsOf(seen: readonly Seen[], firstPlace: number): ReadonlyMap<string, Method> {
  const made = new Map<string, Seen[]>();
  for (const reading of seen) {
    const key = methodKey(reading);
    const others = made.get(key);
    if (others) others.push(reading);
    else made.set(key, [reading]);
  }
  return new Map(
    [...made].map(([key, readings], i) => {
      const stretch = stretchOf(readings.flatMap(knotsOf));
      return [key, { place: firstPlace + i, stretch, quantity: readings[0]!.quantity, count: readings.length }];
    }),
  );
}

/** Middle of half a 90 % interval, in standard deviations. */
const MIDDLE = 1.645 / 2;

/** Each half of an interval tells the deviation around its own middle: of both together the shape would be smoothed away. */
function knotsOf({ value, deviation, sides = [deviation, deviation], bound }: Seen): [number, number][] {
  const [below, above] = sides;
  const halves: [number, number][] = [];
  if (bound !== 'below') halves.push([value - MIDDLE * below, below]);
  if (bound !== 'above') halves.push([value + MIDDLE * above, above]);
  return halves;
}

/** Times a reading far from the estimate is laid straight anew (an iterated extended Kalman filter). */
const ROUNDS = 3;

/**
 * @param truth the row that is measured
 * @param sharedVariance share of the error's variance that the method always has
 * @param doubted the reading's own error counts this many times
 * @param level the place of a share by which what is measured is denser than the row says
 * @param near what is measured, as far as it is known, to lay the reading straight at; left out, by this filter alone
 */
export function look(
  filter: Filter,
  truth: Row,
  method: Method,
  seen: Seen,
  {
    sharedVariance,
    doubted,
    id,
    near,
    level,
  }: { sharedVariance: number; doubted: number; id: number; near?: number | undefined; level?: number },
): void {
  const number = numberFor(filter, truth, method, seen, sharedVariance, doubted, near, level);
  if (number) filter.observe(number.row, number.value, number.variance, id);
}

/**
 * How far a reading lies from what is expected, in standard deviations; of one that only says 'more than' or 'less than',
 * how far what is expected lies on the other side.
 */
export function surprise(filter: Filter, truth: Row, method: Method, seen: Seen, sharedVariance: number): number {
  const number = numberFor(filter, truth, method, { ...seen, bound: null }, sharedVariance, 1);
  if (!number) return 0;
  const off = (number.value - filter.meanOf(number.row)) / Math.sqrt(filter.varianceOf(number.row) + number.variance);
  if (seen.bound === null) return off;
  return seen.bound === 'above' ? Math.max(0, off) : Math.min(0, off);
}

/**
 * How large a scale's own error is isn't seen, only what is left of the stated error once the scatter is taken off. So the
 * larger its share, the wider it is taken for, by this part of the share, up to the whole error. By simulation, on seeds
 * that no figure is told of.
 */
const UNSEEN = 0.15;

/**
 * Where blocks lie less far apart on one side, a curve is laid straight, over so many standard deviations of what is
 * measured on either side (statistical linearisation, by the outer points of the three of Gauss and Hermite: Särkkä,
 * Bayesian Filtering and Smoothing, 2013, sections 5.3 and 6.3, from memory). By its tangent a bias would double its size from one
 * reading to the next, and seem known from that not being seen.
 */
export const REACH = Math.sqrt(3);
/** The reading as a straight-line number near the estimate; null where it tells nothing. */
function numberFor(
  filter: Filter,
  truth: Row,
  { place, stretch }: Method,
  seen: Seen,
  sharedVariance: number,
  doubted: number,
  known?: number,
  level?: number,
): { readonly row: Row; readonly value: number; readonly variance: number } | null {
  const share = seen.sharedVariance ?? sharedVariance;
  const shared = seen.sharedVariance === null ? Math.min(1, Math.sqrt(share) * (1 + UNSEEN * share)) : Math.sqrt(share);
  const own = Math.sqrt(1 - share) * doubted;
  const row = level === undefined ? [...truth, place, NaN] : [...truth, place, NaN, level, NaN];
  const weight = truth.length + 1;
  const prior = filter.varianceOf(truth);
  const layAt = (near: number) => {
    const there = stretch.deviationAt(near) ** 2;
    const deviation = stretch.deviationAt(near, REACH * Math.sqrt((prior * there) / (prior + there)));
    row[weight] = shared * deviation;
    if (level !== undefined) row[weight + 2] = near;
    return { value: near + stretch.between(near, seen.value) * deviation, variance: (own * deviation) ** 2 };
  };
  const start = filter.meanOf(truth);
  let laid = layAt(known ?? start);
  for (let round = 1; round < ROUNDS && known === undefined; round++) {
    const gain = filter.covarianceOf(truth, row) / (filter.varianceOf(row) + laid.variance);
    laid = layAt(start + gain * (laid.value - filter.meanOf(row)));
  }
  if (seen.bound === null) return { row, ...laid };
  const deviation = Math.sqrt(laid.variance);
  const instead = numberForBound(filter.meanOf(row), filter.varianceOf(row), laid.value, deviation, seen.bound);
  return instead && { row, ...instead };
}
