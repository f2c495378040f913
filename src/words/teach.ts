/** What the teaching page says about rows that don't make a scale yet, and of what it did. */
import { countText, listText, plural } from './grammar.ts';
import type { RowProblem, RowUnit } from '../core/scale/row-problem.ts';
import { formatValue } from './numbers.ts';

export function problemText(problem: RowProblem): string {
  switch (problem.code) {
    case 'no-parameter':
      return 'Say what this row measures.';
    case 'parameter-twice':
      return 'Another row measures the same. Change one of them, or remove one row.';
    case 'too-few':
      return 'Give at least two blocks of this row their values.';
    case 'not-a-number':
      return `The value of block ${problem.block + 1} is not a number.`;
    case 'unclear':
      return `The value of block ${problem.block + 1} can be read as ${listText(problem.values.map(formatValue), 'or')}. Write it without a mark between thousands, or with more decimals.`;
    case 'twice':
      return `Two blocks have the value ${problem.value}.`;
    case 'out-of-order':
      return `The values of a chart rise or fall along the row, but ${problem.value} does not fit in. Is it mistyped?`;
  }
}

export function unlikelyText(values: readonly string[]): string {
  return `${listText(values)} would be unusual on a pool strip. Please check ${plural(values.length, 'it', 'them')}.`;
}

const UNITS: Record<RowUnit, string> = {
  pH: 'pH',
  'mg/L': 'mg/L (ppm)',
  dH: '°dH',
  fH: '°fH',
  'mmol/L': 'mmol/L',
  'meq/L': 'meq/L',
  'gr/gal': 'grains per gallon',
};

export function rowUnitText(unit: RowUnit): string {
  return UNITS[unit];
}

export function blocksText(count: number): string {
  return countText(count, 'block', 'blocks');
}

/** 2 rows, with 6 and 5 blocks */
export function rowsText(counts: readonly number[]): string {
  const [only, ...more] = counts;
  if (more.length === 0) return `1 row of ${blocksText(only ?? 0)}`;
  return `${counts.length} rows, with ${listText(counts.map(String))} blocks`;
}

export const NEXT_STEP_FAILED =
  'The next step could not be fetched. Check the connection and press the button once more.';
export const FAILED = {
  wrong: 'The reader stopped before it was done.',
  remedy: 'Choose the photo again; if it happens once more, reload the page.',
};

export const OFF_CHART = {
  'on-card': 'That is on the card. Mark the blocks of the chart beside it.',
  'off-photo': 'That lies outside the photo.',
} as const;

export const NO_SECONDS = 'Give the seconds as a number, an hour at most.';
