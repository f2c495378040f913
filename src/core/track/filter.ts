/**
 * A Kalman filter that takes one number at a time, so that nothing is inverted (Durbin & Koopman, Time Series Analysis
 * by State Space Methods, 2nd ed. 2012, section 6.4: univariate treatment). Every step may be kept for the smoother.
 */

/** A sum over a few places of the state: place, weight, place, weight, and so on. */
export type Row = readonly number[];

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
  | {
      readonly kind: 'marked';
      readonly id: number;
      /** Of the places to smooth, in their order. */
      readonly mean: Float64Array;
      /** Their rows of the covariance, one after another. */
      readonly rows: Float64Array;
    };

export function gaussian(means: readonly number[], deviations: readonly number[]): Gaussian {
  const size = means.length;
  const covariance = new Float64Array(size * size);
  deviations.forEach((deviation, i) => (covariance[i * size + i] = deviation ** 2));
  return { size, mean: Float64Array.from(means), covariance };
}

const SHEET = 1 << 14;

export class Filter {
  readonly steps: FilterStep[] = [];
  readonly state: Gaussian;
  /** Places to smooth. */
  readonly smoothed: readonly number[];
  /** Sum over all numbers of the log of their density, given those before. */
  logLikelihood = 0;
  readonly #isKept: boolean;
  readonly #along: Float64Array;
  #sheet = new Float64Array(0);
  #used = 0;

  /** @param smoothed the places to smooth; null where no smoother is to follow, and no step is kept */
  constructor(start: Gaussian, smoothed: readonly number[] | null = null) {
    const { size, mean, covariance } = start;
    this.state = { size, mean: mean.slice(), covariance: covariance.slice() };
    this.smoothed = smoothed ?? [];
    this.#isKept = smoothed !== null;
    this.#along = new Float64Array(size);
  }

  /** As it is now, to go on by another way; without its steps. */
  copy(): Filter {
    const copy = new Filter(this.state);
    copy.logLikelihood = this.logLikelihood;
    return copy;
  }

  meanOf(row: Row): number {
    const { mean } = this.state;
    let sum = 0;
    for (let i = 0; i < row.length; i += 2) sum += row[i + 1]! * mean[row[i]!]!;
    return sum;
  }

  varianceOf(row: Row): number {
    return this.covarianceOf(row, row);
  }

  covarianceOf(a: Row, b: Row): number {
    const { size, covariance } = this.state;
    let sum = 0;
    for (let i = 0; i < a.length; i += 2) {
      const from = a[i]! * size;
      for (let k = 0; k < b.length; k += 2) sum += a[i + 1]! * b[k + 1]! * covariance[from + b[k]!]!;
    }
    return sum;
  }

  /** Adds a known amount to a place. */
  shift(place: number, amount: number): void {
    this.state.mean[place]! += amount;
  }

  /** Adds doubt to a place: a random change of that variance. */
  disturb(place: number, variance: number): void {
    this.state.covariance[place * this.state.size + place]! += variance;
  }

  /** Replaces a place by a sum of places: x[place] = row · x. */
  move(place: number, row: Row): void {
    const { size, mean, covariance } = this.state;
    mean[place] = this.meanOf(row);
    const along = this.#covarianceWith(row);
    const variance = sumOver(row, along, 0);
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
  observe(row: Row, value: number, errorVariance: number, id = -1): void {
    const { size, mean, covariance } = this.state;
    const gain = this.#covarianceWith(row);
    const variance = sumOver(row, gain, errorVariance);
    const innovation = value - this.meanOf(row);
    for (let i = 0; i < size; i++) {
      const share = gain[i]! / variance;
      if (share === 0) continue;
      mean[i]! += share * innovation;
      const from = i * size;
      for (let k = 0; k <= i; k++) {
        const next = covariance[from + k]! - share * gain[k]!;
        covariance[from + k] = next;
        covariance[k * size + i] = next;
      }
    }
    this.logLikelihood -= (Math.log(2 * Math.PI * variance) + (innovation * innovation) / variance) / 2;
    if (this.#isKept) this.steps.push({ kind: 'observed', id, row, innovation, variance, gain: this.#kept(gain) });
  }

  /** Keeps the state under a number, for the smoother to come back to. */
  mark(id: number): void {
    if (!this.#isKept) return;
    const { size, mean, covariance } = this.state;
    const means = this.#room(this.smoothed.length);
    const rows = this.#room(this.smoothed.length * size);
    this.smoothed.forEach((place, i) => {
      means[i] = mean[place]!;
      for (let k = 0; k < size; k++) rows[i * size + k] = covariance[place * size + k]!;
    });
    this.steps.push({ kind: 'marked', id, mean: means, rows });
  }

  #kept(numbers: Float64Array): Float64Array {
    const room = this.#room(numbers.length);
    room.set(numbers);
    return room;
  }

  /** For numbers to keep: parts of large arrays, as thousands of small ones keep the garbage collector busy. */
  #room(length: number): Float64Array {
    if (this.#used + length > this.#sheet.length) {
      this.#sheet = new Float64Array(Math.max(length, SHEET));
      this.#used = 0;
    }
    return this.#sheet.subarray(this.#used, (this.#used += length));
  }

  /** Covariance of the state with a row, in a place that the next call takes again. */
  #covarianceWith(row: Row): Float64Array {
    const { size, covariance } = this.state;
    const along = this.#along;
    along.fill(0);
    for (let i = 0; i < row.length; i += 2) {
      const from = row[i]! * size;
      const weight = row[i + 1]!;
      for (let k = 0; k < size; k++) along[k]! += weight * covariance[from + k]!;
    }
    return along;
  }
}

/** Of places, each with its weight, and a number to begin with. */
export function sumOver(row: Row, values: Float64Array, start: number): number {
  let sum = start;
  for (let i = 0; i < row.length; i += 2) sum += row[i + 1]! * values[row[i]!]!;
  return sum;
}
