/**
 * A strip errs by about the same number of its blocks everywhere, so by more mg/L where the blocks lie far apart. The
 * errors that a method states at the values it gave are turned into a scale on which its error is 1 everywhere (a
 * variance-stabilising transform: Bartlett, The use of transformations, Biometrics 3, 1947). Without it a high reading,
 * stating a wide error, counts for less than a low one, and all are drawn down.
 */
export interface Stretch {
  /** Standard deviation at a true value, in its unit; the mean of it within so much on either side, where that is given. */
  readonly deviationAt: (value: number, within?: number) => number;
  /** How many standard deviations lie between two values; negative where `to` is below `from`. */
  readonly between: (from: number, to: number) => number;
  /** The value that lies so many standard deviations above (below, where negative) another. */
  readonly from: (value: number, deviations: number) => number;
}

/** Knots: values with the standard deviation there. */
type Knot = readonly [value: number, deviation: number];

const MAX_KNOTS = 6;

/** @param stated at least one: a value that the method gave and the standard deviation it stated there, above 0 */
export function stretchOf(stated: readonly Knot[]): Stretch {
  const knots = gather([...stated].sort(([a], [b]) => a - b));
  const lines = linesThrough(knots);
  /** Standard deviations from the first knot. */
  const far = (value: number) => {
    const { at, deviation, slope, from } = lineWhere(lines, 'at', value);
    const step = value - at;
    return from + (slope === 0 ? step / deviation : Math.log1p((slope * step) / deviation) / slope);
  };
  const deviationAt = (value: number, within = 0) => {
    if (within > 0) return (2 * within) / (far(value + within) - far(value - within));
    const { at, deviation, slope } = lineWhere(lines, 'at', value);
    return deviation + slope * (value - at);
  };
  const near = (deviations: number) => {
    const { at, deviation, slope, from } = lineWhere(lines, 'from', deviations);
    const step = deviations - from;
    return at + (slope === 0 ? step * deviation : (Math.expm1(slope * step) * deviation) / slope);
  };
  return {
    deviationAt,
    between: (from, to) => far(to) - far(from),
    from: (value, deviations) => near(far(value) + deviations),
  };
}

/** Between two knots the deviation runs straight; before the first and after the last it stays as it is. */
interface Line {
  readonly at: number;
  readonly deviation: number;
  readonly slope: number;
  /** The integral of 1 / deviation from the first knot to here. */
  readonly from: number;
}

function linesThrough(knots: readonly Knot[]): readonly Line[] {
  const [first] = knots;
  const lines: Line[] = [{ at: first![0], deviation: first![1], slope: 0, from: 0 }];
  let from = 0;
  knots.forEach(([at, deviation], i) => {
    const next = knots[i + 1];
    const rise = next ? next[1] - deviation : 0;
    const slope = next && Math.abs(rise) > 1e-6 * deviation ? rise / (next[0] - at) : 0;
    lines.push({ at, deviation, slope, from });
    if (next) from += slope === 0 ? (next[0] - at) / deviation : Math.log(next[1] / deviation) / slope;
  });
  return lines;
}

/** The last line that has begun; the first also stands for what lies before it. */
function lineWhere(lines: readonly Line[], by: 'at' | 'from', value: number): Line {
  for (let i = lines.length - 1; i > 0; i--) if (value >= lines[i]![by]) return lines[i]!;
  return lines[0]!;
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
