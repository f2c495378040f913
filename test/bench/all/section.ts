/** What a part of the bench gives: tables of words, and ratios for the picture. */

export interface Table {
  readonly title: string;
  /** How it was measured, in sentences. */
  readonly about: string;
  readonly head: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** How many times the floor, or the peer, something of ours takes. */
export interface Ratio {
  readonly name: string;
  readonly ratio: number;
  /** At most so many times; null where nothing was promised. */
  readonly wanted: number | null;
}

/** A drawing kept beside the results. */
export interface Picture {
  /** Of its file. */
  readonly name: string;
  readonly svg: string;
  /** In words, where it can't be seen. */
  readonly says: string;
}

export interface Section {
  readonly tables: readonly Table[];
  readonly ratios: readonly Ratio[];
  /** Beside that of the ratios. */
  readonly pictures?: readonly Picture[];
  /** What the line at the end says of it, where it says anything. */
  readonly atTheEnd?: string;
}

/** The middle of several ratios, each of one round: ours over floor or peer, measured one right after the other. */
export interface Spread {
  readonly median: number;
  /** A quarter of the rounds lie below, and a quarter above. */
  readonly low: number;
  readonly high: number;
}

export function spreadOf(ratios: readonly number[]): Spread {
  const sorted = ratios.toSorted((one, other) => one - other);
  const at = (share: number) => sorted[Math.round(share * (sorted.length - 1))] ?? NaN;
  return { median: median(sorted), low: at(0.25), high: at(0.75) };
}

/** 1.53 (1.48 to 1.60). */
export function spreadText({ median: middle, low, high }: Spread): string {
  return Number.isFinite(middle) ? `${figure(middle)} (${figure(low)} to ${figure(high)})` : figure(middle);
}

/** The two last cells of a row: what is wanted, and whether it is met. A figure that wasn't measured meets nothing. */
export function verdict(measured: number, wanted: number | null, unit = 'times'): [string, string] {
  if (wanted === null) return ['–', '–'];
  const asked = `at most ${wanted} ${unit}`;
  if (!Number.isFinite(measured)) return [asked, '**not measured**'];
  return [asked, measured <= wanted ? 'met' : '**not met**'];
}

/** Three significant digits at least: 0.0123, 1.53, 47.1, 1234. */
export function figure(value: number): string {
  if (!Number.isFinite(value)) return 'not measured';
  const digits = Math.abs(value) >= 100 ? 0 : Math.abs(value) >= 10 ? 1 : Math.abs(value) >= 1 ? 2 : 3;
  return Math.abs(value) < 0.1 && value !== 0 ? value.toPrecision(2) : value.toFixed(digits);
}

/** NaN of none. */
export function median(values: readonly number[]): number {
  const sorted = values.toSorted((one, other) => one - other);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : ((sorted[half - 1] ?? NaN) + (sorted[half] ?? NaN)) / 2;
}
