/** Small dense least squares: a few dozen unknowns at most. */
import { factorOf, inverseOf, solveFactored } from './cholesky.ts';

/**
 * Solves A x = b for a symmetric positive definite A (n x n, row by row) by Cholesky's method.
 * @throws RangeError when A isn't positive definite.
 */
export function solveSymmetric(a: readonly ArrayLike<number>[], b: readonly number[]): number[] {
  return solveFactored(factorOf(a), b);
}

export interface Unknown {
  /** What is believed beforehand, and how firmly (one standard deviation). */
  readonly prior: number;
  readonly sigma: number;
}

export interface Fit {
  readonly x: number[];
  /** Residuals at the solution, priors not included. */
  readonly residuals: number[];
}

/** How well the unknowns are known at a solution: their covariance, n x n, from the curvature there. */
export function covarianceAt(
  residualsOf: (x: readonly number[]) => number[],
  x: readonly number[],
  unknowns: readonly Unknown[],
): number[][] {
  return inverseOf(factorOf(normalAt(residualsOf, x, unknowns).normal));
}

const ITERATIONS = 12;

/**
 * Gauss-Newton with priors: minimises the sum of squared residuals (each already divided by its standard
 * deviation) plus the squared, normalised departures from the priors. Derivatives by central differences;
 * steps are halved until they help.
 */
export function fitWithPriors(residualsOf: (x: readonly number[]) => number[], unknowns: readonly Unknown[]): Fit {
  let x = unknowns.map((unknown) => unknown.prior);
  let residuals = residualsOf(x);
  let cost = costOf(residuals, x, unknowns);
  for (let iteration = 0; iteration < ITERATIONS; iteration++) {
    const step = gaussNewtonStep(residualsOf, x, residuals, unknowns);
    let scale = 1;
    let improved = false;
    while (scale > 1e-3 && !improved) {
      const factor = scale;
      const next = x.map((value, i) => value + factor * step[i]!);
      const nextResiduals = residualsOf(next);
      const nextCost = costOf(nextResiduals, next, unknowns);
      if (nextCost < cost) {
        improved = true;
        const gain = cost - nextCost;
        x = next;
        residuals = nextResiduals;
        cost = nextCost;
        if (gain < 1e-9 * (1 + cost)) return { x, residuals };
      }
      scale /= 2;
    }
    if (!improved) break;
  }
  return { x, residuals };
}

function costOf(residuals: readonly number[], x: readonly number[], unknowns: readonly Unknown[]): number {
  let cost = 0;
  for (const residual of residuals) cost += residual * residual;
  unknowns.forEach(({ prior, sigma }, i) => {
    cost += ((x[i]! - prior) / sigma) ** 2;
  });
  return Number.isFinite(cost) ? cost : Infinity;
}

function gaussNewtonStep(
  residualsOf: (x: readonly number[]) => number[],
  x: readonly number[],
  residuals: readonly number[],
  unknowns: readonly Unknown[],
): number[] {
  const { columns, normal } = normalAt(residualsOf, x, unknowns);
  const gradient = columns.map((column, i) => {
    const { prior, sigma } = unknowns[i]!;
    return (prior - x[i]!) / (sigma * sigma) - dot(column, residuals);
  });
  return solveSymmetric(normal, gradient);
}

/** Derivatives of the residuals by each unknown, and the normal matrix with the priors. */
function normalAt(
  residualsOf: (x: readonly number[]) => number[],
  x: readonly number[],
  unknowns: readonly Unknown[],
): { columns: number[][]; normal: number[][] } {
  const columns = unknowns.map(({ sigma }, i) => {
    const h = 1e-3 * sigma;
    const shifted = (by: number) => residualsOf(x.map((value, j) => (j === i ? value + by : value)));
    const up = shifted(h);
    const down = shifted(-h);
    return up.map((value, k) => (value - down[k]!) / (2 * h));
  });
  const normal = columns.map((left) => columns.map((right) => dot(left, right)));
  unknowns.forEach(({ sigma }, i) => (normal[i]![i]! += 1 / (sigma * sigma)));
  return { columns, normal };
}

function dot(a: readonly number[], b: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}
