/** Results as tables for people and as JSON for the picture. */
import { mean, percentile95, type Result, type Tally } from './measure.ts';

export interface Figures {
  readonly pads: number;
  readonly mean: number;
  readonly p95: number;
  readonly meanSteps: number;
  readonly p95Steps: number;
  /** Share of the intervals that hold the truth, 0 to 1. */
  readonly holding: number;
  readonly widthSteps: number;
  readonly wrong: number;
  readonly unmatched: number;
}

export interface Line {
  readonly name: string;
  readonly readings: number;
  readonly refused: number;
  readonly refusals: Readonly<Record<string, number>>;
  readonly warnings: Readonly<Record<string, number>>;
  readonly byAnchors: number;
  readonly wrongReadings: number;
  readonly all: Figures;
  /** By the parameter's id; errors in its own unit. */
  readonly parameters: Readonly<Record<string, Figures>>;
}

export function lineOf({ all, byParameter, refusals, warnings, ...counts }: Result): Line {
  const parameters = [...byParameter].map(([id, tally]) => [id, figuresOf(tally)] as const);
  return {
    ...counts,
    refusals: Object.fromEntries(refusals),
    warnings: Object.fromEntries(warnings),
    all: figuresOf(all),
    parameters: Object.fromEntries(parameters),
  };
}

function figuresOf({ steps, errors, widths, held, wrong, unmatched }: Tally): Figures {
  return {
    pads: steps.length,
    mean: rounded(mean(errors)),
    p95: rounded(percentile95(errors)),
    meanSteps: rounded(mean(steps)),
    p95Steps: rounded(percentile95(steps)),
    holding: rounded(held / steps.length),
    widthSteps: rounded(mean(widths)),
    wrong,
    unmatched,
  };
}

function rounded(value: number): number {
  return Number(value.toFixed(4));
}

export const SUMMARY_HEAD = [
  'case',
  'pH error: mean, 95 %',
  'all pads, block steps: mean, 95 %',
  'intervals that hold',
  'width, steps',
  'readings wrong by over a block and confident',
  'pads not matched, readings refused',
  'read by anchors; warned',
];

export function summaryCells({ name, readings, refused, wrongReadings, all, parameters, ...line }: Line): string[] {
  const ph = parameters['ph'];
  return [
    name,
    ph ? `${ph.mean.toFixed(3)}, ${ph.p95.toFixed(2)}` : '',
    `${all.meanSteps.toFixed(3)}, ${all.p95Steps.toFixed(2)}`,
    `${(100 * all.holding).toFixed(1)} %`,
    all.widthSteps.toFixed(2),
    `${wrongReadings} of ${readings - refused}`,
    `${all.unmatched}, ${refused}`,
    [`${line.byAnchors}`, ...Object.entries(line.warnings).map(([code, count]) => `${code} ${count}`)].join('; '),
  ];
}

export const PARAMETER_HEAD = [
  'case',
  'parameter',
  'error: mean, 95 %',
  'block steps: mean, 95 %',
  'intervals that hold',
  'width, steps',
  'wrong by over a block and confident',
];

export function parameterRows({ name, parameters }: Line): string[][] {
  return Object.entries(parameters).map(([id, one]) => [
    name,
    id,
    id === 'ph'
      ? `${one.mean.toFixed(3)}, ${one.p95.toFixed(2)}`
      : `${one.mean.toFixed(1)}, ${one.p95.toFixed(1)} mg/L`,
    `${one.meanSteps.toFixed(3)}, ${one.p95Steps.toFixed(2)}`,
    `${(100 * one.holding).toFixed(1)} %`,
    one.widthSteps.toFixed(2),
    `${one.wrong} of ${one.pads}`,
  ]);
}

export function printRow(cells: readonly string[]): void {
  console.log(`| ${cells.join(' | ')} |`);
}

export function printHead(cells: readonly string[]): void {
  printRow(cells);
  printRow(cells.map(() => '---'));
}
