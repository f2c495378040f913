/** The same Gaussian as the filter's, written out whole: every state and number as a sum of independent normals. */
import type { Row } from '../../../src/core/track/filter.ts';

export class Dense {
  /** Rows: places of the state; columns: independent standard normals. */
  #state: number[][];
  #mean: number[];
  readonly #seen: { row: number[]; mean: number; value: number }[] = [];
  readonly #marked: { rows: number[][]; means: number[] }[] = [];

  constructor(means: readonly number[], deviations: readonly number[]) {
    this.#mean = [...means];
    this.#state = deviations.map((deviation, i) => deviations.map((_, k) => (i === k ? deviation : 0)));
  }

  shift(place: number, amount: number): void {
    this.#mean[place]! += amount;
  }

  disturb(place: number, variance: number): void {
    this.#state.forEach((row, i) => row.push(i === place ? Math.sqrt(variance) : 0));
  }

  move(place: number, row: Row): void {
    const next = this.#along(row);
    this.#mean[place] = sumOf(row, (from) => this.#mean[from]!);
    this.#state[place] = next;
  }

  observe(row: Row, value: number, variance: number): void {
    this.#state.forEach((line) => line.push(0));
    const along = this.#along(row);
    along[along.length - 1] = Math.sqrt(variance);
    const mean = sumOf(row, (place) => this.#mean[place]!);
    this.#seen.push({ row: along, mean, value });
  }

  mark(): void {
    this.#marked.push({ rows: this.#state.map((row) => [...row]), means: [...this.#mean] });
  }

  /** log density of all numbers, and mean and variance of every marked state given all of them. */
  solve(): { logLikelihood: number; marked: { mean: number[]; variance: number[] }[] } {
    const { lower, logDeterminant } = cholesky(this.#seen.map((a) => this.#seen.map((b) => dot(a.row, b.row))));
    const white = forward(
      lower,
      this.#seen.map(({ value, mean }) => value - mean),
    );
    const logLikelihood =
      -(this.#seen.length * Math.log(2 * Math.PI) + logDeterminant + white.reduce((sum, z) => sum + z * z, 0)) / 2;
    const marked = this.#marked.map(({ rows, means }) => {
      const across = rows.map((row) =>
        forward(
          lower,
          this.#seen.map((seen) => dot(row, seen.row)),
        ),
      );
      return {
        mean: rows.map((_, i) => means[i]! + dot(across[i]!, white)),
        variance: rows.map((row, i) => dot(row, row) - dot(across[i]!, across[i]!)),
      };
    });
    return { logLikelihood, marked };
  }

  #along(row: Row): number[] {
    return this.#state[0]!.map((_, k) => sumOf(row, (place) => this.#state[place]![k]!));
  }
}

function sumOf(row: Row, valueAt: (place: number) => number): number {
  return row.reduce((sum, place, i) => (i % 2 === 0 ? sum + row[i + 1]! * valueAt(place) : sum), 0);
}

/** Columns that were added later are 0 in a shorter row. */
function dot(a: readonly number[], b: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i < Math.min(a.length, b.length); i++) sum += a[i]! * b[i]!;
  return sum;
}

function cholesky(matrix: readonly (readonly number[])[]): { lower: number[][]; logDeterminant: number } {
  const lower = matrix.map((row) => row.map(() => 0));
  let logDeterminant = 0;
  matrix.forEach((row, i) => {
    for (let k = 0; k <= i; k++) {
      const rest = row[k]! - dot(lower[i]!.slice(0, k), lower[k]!.slice(0, k));
      lower[i]![k] = i === k ? Math.sqrt(rest) : rest / lower[k]![k]!;
    }
    logDeterminant += 2 * Math.log(lower[i]![i]!);
  });
  return { lower, logDeterminant };
}

function forward(lower: readonly (readonly number[])[], right: readonly number[]): number[] {
  const solved: number[] = [];
  lower.forEach((row, i) => solved.push((right[i]! - dot(row.slice(0, i), solved)) / row[i]!));
  return solved;
}
