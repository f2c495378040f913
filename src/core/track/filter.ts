/**
 * A Kalman filter that takes one number at a time, so that nothing is inverted (Durbin & Koopman, Time Series Analysis
 * by State Space Methods, 2nd ed. 2012, section 6.4: univariate treatment). Every step is kept for the smoother.
 */

/** A row of few entries: places in the state and their weights. */
export type Row = readonly (readonly [place: number, weight: number])[];

/** Mean and covariance of a Gaussian state of `size` numbers. */
export interface Gaussian {
  readonly size: number;
  readonly mean: Float64Array;
  /** Row after row, symmetric. */
  readonly covariance: Float64Array;
}

/** What was done to the state, in order, with what the smoother needs to undo it. */
export type FilterStep =
  | { readonly kind: 'moved'; readonly place: number; readonly row: Row }
  | {
      readonly kind: 'observed';
      /** Whose number it was, as given to `observe`. */
      readonly id: number;
      readonly row: Row;
      readonly innovation: number;
      readonly variance: number;
      /** Covariance of the state with the number, before it was seen. */
      readonly gain: Float64Array;
    }
  | { readonly kind: 'marked'; readonly id: number; readonly state: Gaussian };

export function gaussian(means: readonly number[], deviations: readonly number[]): Gaussian {
  const size = means.length;
  const covariance = new Float64Array(size * size);
  deviations.forEach((deviation, i) => (covariance[i * size + i] = deviation ** 2));
  return { size, mean: Float64Array.from(means), covariance };
}

export class Filter {
  readonly steps: FilterStep[] = [];
  /** Sum over all numbers of the log of their density, given those before. */
  logLikelihood = 0;
  readonly #state: Gaussian;
  readonly #isKept: boolean;
  readonly #scratch: Float64Array;

  /** @param isKept the steps are wanted for a smoother */
  constructor(start: Gaussian, isKept = false) {
    this.#state = copyOf(start);
    this.#isKept = isKept;
    this.#scratch = new Float64Array(start.size);
  }

  get state(): Gaussian {
    return this.#state;
  }

  meanOf(row: Row): number {
    return row.reduce((sum, [place, weight]) => sum + weight * this.#state.mean[place]!, 0);
  }

  varianceOf(row: Row): number {
    return this.covarianceOf(row, row);
  }

  covarianceOf(a: Row, b: Row): number {
    const { size, covariance } = this.#state;
    let sum = 0;
    for (const [i, weight] of a) for (const [k, other] of b) sum += weight * other * covariance[i * size + k]!;
    return sum;
  }

  /** Adds a known amount to a place. */
  shift(place: number, amount: number): void {
    this.#state.mean[place]! += amount;
  }

  /** Adds doubt to a place: a random change of that variance. */
  disturb(place: number, variance: number): void {
    this.#state.covariance[place * this.#state.size + place]! += variance;
  }

  /** Replaces a place by a sum of places: x[place] = row · x. */
  move(place: number, row: Row): void {
    const { size, mean, covariance } = this.#state;
    mean[place] = this.meanOf(row);
    const along = this.#along(row);
    const variance = row.reduce((sum, [from, weight]) => sum + weight * along[from]!, 0);
    for (let k = 0; k < size; k++) {
      covariance[place * size + k] = along[k]!;
      covariance[k * size + place] = along[k]!;
    }
    covariance[place * size + place] = variance;
    if (this.#isKept) this.steps.push({ kind: 'moved', place, row });
  }

  /**
   * A number that was seen: row · x, plus an error of that variance.
   * @param id to know it by in what the smoother says
   */
  observe(row: Row, value: number, errorVariance: number, id = -1): { innovation: number; variance: number } {
    const { size, mean, covariance } = this.#state;
    const gain = this.#along(row);
    const variance = row.reduce((sum, [place, weight]) => sum + weight * gain[place]!, errorVariance);
    const innovation = value - this.meanOf(row);
    for (let i = 0; i < size; i++) {
      const share = gain[i]! / variance;
      if (share === 0) continue;
      mean[i]! += share * innovation;
      for (let k = 0; k <= i; k++) {
        const next = covariance[i * size + k]! - share * gain[k]!;
        covariance[i * size + k] = next;
        covariance[k * size + i] = next;
      }
    }
    this.logLikelihood -= (Math.log(2 * Math.PI * variance) + (innovation * innovation) / variance) / 2;
    if (this.#isKept) this.steps.push({ kind: 'observed', id, row, innovation, variance, gain: gain.slice() });
    return { innovation, variance };
  }

  /** Keeps the state under a number, for the smoother to come back to. */
  mark(id: number): void {
    if (this.#isKept) this.steps.push({ kind: 'marked', id, state: copyOf(this.#state) });
  }

  /** Covariance of the state with a row, in a place that the next call takes again. */
  #along(row: Row): Float64Array {
    const { size, covariance } = this.#state;
    const along = this.#scratch;
    along.fill(0);
    for (const [place, weight] of row) {
      const from = place * size;
      for (let k = 0; k < size; k++) along[k]! += weight * covariance[from + k]!;
    }
    return along;
  }
}

function copyOf({ size, mean, covariance }: Gaussian): Gaussian {
  return { size, mean: mean.slice(), covariance: covariance.slice() };
}
