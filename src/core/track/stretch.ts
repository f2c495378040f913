/**
 * A strip errs by about the same number of its blocks everywhere, so by more mg/L where the blocks lie far apart. The
 * errors that a method states at the values it gave are turned into a scale on which its error is 1 everywhere (a
 * variance-stabilising transform: Bartlett, The use of transformations, Biometrics 3, 1947). Without it a high reading,
 * stating a wide error, counts for less than a low one, and all are drawn down.
 */
export interface Stretch {
  /** Standard deviation at a true value, in its unit. */
  readonly deviationAt: (value: number) => number;
  /** How many standard deviations lie between two values; negative where `to` is below `from`. */
  readonly between: (from: number, to: number) => number;
  /** The value that lies so many standard deviations above (below, where negative) another. */
  readonly from: (value: number, deviations: number) => number;
}

/** Knots: values with the standard deviation there. */
type Knot = readonly [value: number, deviation: number];

const MAX_KNOTS = 6;
const STEPS = 8;

/** @param stated at least one: a value that the method gave and the standard deviation it stated there, above 0 */
export function stretchOf(stated: readonly Knot[]): Stretch {
  const knots = gather([...stated].sort(([a], [b]) => a - b));
  const deviationAt = (value: number) => {
    const [first, last] = [knots[0]!, knots.at(-1)!];
    if (value <= first[0]) return first[1];
    if (value >= last[0]) return last[1];
    const i = knots.findIndex(([at]) => at > value);
    const [from, to] = [knots[i - 1]!, knots[i]!];
    return from[1] + ((to[1] - from[1]) * (value - from[0])) / (to[0] - from[0]);
  };
  const upwards = (from: number, to: number) => {
    const stops = [from, ...knots.map(([at]) => at).filter((at) => at > from && at < to), to];
    return stops.slice(1).reduce((sum, stop, i) => {
      const [a, b] = [deviationAt(stops[i]!), deviationAt(stop)];
      // The integral of 1 / deviation where it runs straight from a to b.
      const inverse = Math.abs(b - a) < 1e-6 * a ? 1 / a : Math.log(b / a) / (b - a);
      return sum + (stop - stops[i]!) * inverse;
    }, 0);
  };
  // The midpoint rule; shapes have a handful of knots.
  const from = (value: number, deviations: number) => {
    const step = deviations / STEPS;
    let at = value;
    for (let i = 0; i < STEPS; i++) at += step * deviationAt(at + (step / 2) * deviationAt(at));
    return at;
  };
  return { deviationAt, from, between: (from, to) => (to >= from ? upwards(from, to) : -upwards(to, from)) };
}

/** Equal parts of the sorted values, each by its means. */
function gather(sorted: readonly Knot[]): Knot[] {
  const parts = Math.min(MAX_KNOTS, sorted.length);
  const knots: Knot[] = [];
  for (let part = 0; part < parts; part++) {
    const some = sorted.slice(
      Math.floor((part * sorted.length) / parts),
      Math.floor(((part + 1) * sorted.length) / parts),
    );
    const value = some.reduce((sum, [at]) => sum + at, 0) / some.length;
    const deviation = some.reduce((sum, [, size]) => sum + size, 0) / some.length;
    const last = knots.at(-1);
    if (!last || value > last[0]) knots.push([value, deviation]);
  }
  return knots;
}
