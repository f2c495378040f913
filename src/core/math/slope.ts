/**
 * One slope through several stretches, each at a height of its own, where two things blur it: every point is a reading
 * with an error of its own, and what is read wanders by itself from one point to the next.
 */
import { t90 } from './student.ts';

type Point = readonly [x: number, y: number];

export interface Slope {
  readonly value: number;
  /** Standard deviation of the slope. */
  readonly deviation: number;
  /** 90 % interval. */
  readonly low: number;
  readonly high: number;
  readonly freedom: number;
}

interface Fit {
  readonly share: number;
  readonly slope: Slope;
  readonly likelihood: number;
}

/** Never quite all wandering: two readings at one time must not weigh for ever. */
const SHARES = Array.from({ length: 20 }, (_, i) => i / 20);

/**
 * What share of the blur is wandering isn't known, and few points can't tell: every share is weighed by its restricted
 * likelihood (Patterson & Thompson 1971) and by its square, since what is measured outdoors does wander. In simulations
 * of 4 to 30 points the interval held the truth in 83 % (all wandering) to 99 % (all reading error) of runs.
 * @param stretches points in the order of rising x; a stretch of one point says nothing about the slope
 * @returns null with fewer than one degree of freedom, or where all x of every stretch are equal
 */
export function commonSlope(stretches: readonly (readonly Point[])[]): Slope | null {
  const fits = SHARES.map((share) => fitWithShare(stretches, share)).filter((each) => each !== null);
  if (fits.length === 0) return null;
  const best = Math.max(...fits.map(({ likelihood }) => likelihood));
  const weights = fits.map(({ share, likelihood }) => share ** 2 * Math.exp(likelihood - best));
  const mean = (of: (slope: Slope) => number) =>
    sum(fits.map(({ slope }, i) => weights[i]! * of(slope))) / sum(weights);
  const value = mean((slope) => slope.value);
  const deviation = Math.sqrt(mean((slope) => slope.deviation ** 2 + (slope.value - value) ** 2));
  return spread(value, deviation, fits[0]!.slope.freedom);
}

/**
 * Generalised least squares on the steps between neighbours: a step's variance grows with its length by the
 * wandering, and each reading's error enters two steps, once up and once down.
 * @param share of the wandering; 0 is ordinary least squares with an intercept for every stretch
 */
export function fitWithShare(stretches: readonly (readonly Point[])[], share: number): Fit | null {
  const steps = stretches.map(stepsOf);
  const count = steps.flat().length;
  const freedom = count - 1;
  const length = sum(steps.flat().map(([dx]) => dx));
  if (freedom < 1 || !(length > 0)) return null;
  const blocks = steps.map((stretch) => whiten(stretch, (share * count) / length, 1 - share));
  const rows = blocks.flatMap(({ rows }) => rows);
  const sxx = sum(rows.map(([dx]) => dx * dx));
  const value = sum(rows.map(([dx, dy]) => dx * dy)) / sxx;
  const variance = sum(rows.map(([dx, dy]) => (dy - value * dx) ** 2)) / freedom;
  const deviation = Math.sqrt(variance / sxx);
  const logDeterminant = sum(blocks.map((block) => block.logDeterminant));
  return {
    share,
    slope: spread(value, deviation, freedom),
    likelihood: -(freedom * Math.log(Math.max(variance, 1e-24)) + logDeterminant + Math.log(sxx)) / 2,
  };
}

function spread(value: number, deviation: number, freedom: number): Slope {
  const half = t90(freedom) * deviation;
  return { value, deviation, low: value - half, high: value + half, freedom };
}

function stepsOf(points: readonly Point[]): Point[] {
  return points.slice(1).map(([x, y], i) => [x - points[i]![0], y - points[i]![1]]);
}

/**
 * Divides the steps by the Cholesky factor of their covariance, which is tridiagonal: wander * dx + 2 * error on the
 * diagonal, -error beside it.
 */
function whiten(steps: readonly Point[], wander: number, error: number): { rows: Point[]; logDeterminant: number } {
  const rows: Point[] = [];
  let logDeterminant = 0;
  let before: { root: number; row: Point } | null = null;
  for (const [dx, dy] of steps) {
    const beside: number = before ? -error / before.root : 0;
    const root = Math.sqrt(wander * dx + 2 * error - beside * beside);
    const [x, y] = before?.row ?? [0, 0];
    const row: Point = [(dx - beside * x) / root, (dy - beside * y) / root];
    rows.push(row);
    logDeterminant += 2 * Math.log(root);
    before = { root, row };
  }
  return { rows, logDeterminant };
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
