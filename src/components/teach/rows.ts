/** The rows of blocks as they are being marked: what a person has typed, and what it comes to. */
import type { PadQuantity } from '../../core/measurement/quantities.ts';
import type { RowProblem, RowUnit } from '../../core/scale/row-problem.ts';
import { convert } from '../../core/water/units.ts';
import type { BlockFound } from '../../vision/messages.ts';
import { fieldNumber, type TypedNumber } from '../../core/typed/number.ts';
import { PLAUSIBLE, plausibleFor } from '../../core/typed/plausible.ts';
import { readTyped } from '../typed.ts';

export interface Mark {
  readonly block: BlockFound;
  /** As typed; empty leaves the block out. */
  readonly value: string;
}

export interface Row {
  readonly parameter: PadQuantity | null;
  /** In which its values are printed. */
  readonly unit: RowUnit;
  readonly marks: readonly Mark[];
}

export function rowOf(blocks: readonly BlockFound[]): Row {
  return { parameter: null, unit: 'mg/L', marks: blocks.map((block) => ({ block, value: '' })) };
}

/** Units that a bottle may print for a parameter, the usual one first. */
export function unitsFor(parameter: PadQuantity | null): readonly RowUnit[] {
  if (parameter === 'ph') return ['pH'];
  const asCalcite = parameter === 'total-alkalinity' || parameter === 'total-hardness';
  return asCalcite ? ['mg/L', 'dH', 'fH', 'mmol/L'] : ['mg/L'];
}

export function withParameter(row: Row, parameter: PadQuantity | null): Row {
  const units = unitsFor(parameter);
  return { ...row, parameter, unit: units.includes(row.unit) ? row.unit : units[0]! };
}

/** The new block takes its place along the row, wherever it was tapped. */
export function withBlock(row: Row, block: BlockFound): Row {
  const marks = [...row.marks, { block, value: '' }];
  if (row.marks.length < 2) return { ...row, marks: row.marks.length < 1 ? marks : leftFirst(marks) };
  const [fromX, fromY] = row.marks[0]!.block.centre;
  const [toX, toY] = row.marks.at(-1)!.block.centre;
  const along = ({ block: { centre } }: Mark) =>
    (centre[0] - fromX) * (toX - fromX) + (centre[1] - fromY) * (toY - fromY);
  return { ...row, marks: marks.sort((one, other) => along(one) - along(other)) };
}

function leftFirst(marks: Mark[]): Mark[] {
  const [one, other] = marks.map(({ block }) => block.centre) as [BlockFound['centre'], BlockFound['centre']];
  const [dx, dy] = [other[0] - one[0], other[1] - one[1]];
  const forwards = Math.abs(dx) >= Math.abs(dy) ? dx > 0 : dy > 0;
  return forwards ? marks : marks.reverse();
}

export function withoutBlock(row: Row, index: number): Row {
  return { ...row, marks: row.marks.filter((_, i) => i !== index) };
}

export function withValue(row: Row, index: number, value: string): Row {
  return { ...row, marks: row.marks.map((mark, i) => (i === index ? { ...mark, value } : mark)) };
}

/** First value, and what each further block adds to it. */
export function filledBySteps(row: Row, first: number, step: number): Row {
  const text = (i: number) => fieldNumber(first + i * step, 10);
  return { ...row, marks: row.marks.map((mark, i) => ({ ...mark, value: text(i) })) };
}

/** Several values typed or pasted at one block go on over the blocks after it. */
export function filledFrom(row: Row, index: number, values: readonly string[]): Row {
  return { ...row, marks: row.marks.map((mark, i) => ({ ...mark, value: values[i - index] ?? mark.value })) };
}

/** Parts of a pasted list: by blanks, semicolons, or commas that no digit follows at once; a narrow blank is in a number. */
export function listOf(text: string): string[] {
  return text.split(/(?:(?![\u00a0\u2009\u202f])[\s;|/])+|,(?=\s|$)/).filter((part) => part !== '');
}

/** A number as people type it; null when it is none, or less than 0. */
export function readMillimetres(text: string): number | null {
  const typed = readTyped(text, PLAUSIBLE.millimetres);
  return typed.kind === 'number' && typed.value >= 0 ? typed.value : null;
}

/** What is typed at a block of the row, by what its pad can show. */
export function typedValue({ parameter, unit }: Pick<Row, 'parameter' | 'unit'>, text: string): TypedNumber {
  if (parameter === null) return readTyped(text);
  const { min, max } = plausibleFor(parameter);
  const typed = readTyped(text, { min: fromScaleUnit(min, unit), max: fromScaleUnit(max, unit) });
  return typed.kind === 'number' && !(typed.value >= 0) ? { kind: 'not-a-number' } : typed;
}

/** Null where no number is typed, or one of two. */
function numberOf(row: Row, text: string): number | null {
  const typed = typedValue(row, text);
  return typed.kind === 'number' ? typed.value : null;
}

/** What must be put right before the rows make a scale, row by row. */
export function problemsOf(rows: readonly Row[]): RowProblem[][] {
  return rows.map((row, i) => {
    const problems: RowProblem[] = [];
    if (row.parameter === null) problems.push({ code: 'no-parameter' });
    else if (rows.findIndex(({ parameter }) => parameter === row.parameter) !== i) {
      problems.push({ code: 'parameter-twice' });
    }
    return [...problems, ...problemsOfValues(row)];
  });
}

function problemsOfValues(row: Row): RowProblem[] {
  const all = row.marks.map(({ value }) => ({ value, read: typedValue(row, value) }));
  const bad = all.findIndex(({ read }) => read.kind === 'not-a-number');
  if (bad >= 0) return [{ code: 'not-a-number', block: bad }];
  const unclear = all.findIndex(({ read }) => read.kind === 'unclear');
  const meanings = all[unclear]?.read;
  if (meanings?.kind === 'unclear') return [{ code: 'unclear', block: unclear, values: meanings.values }];
  const typed = all.flatMap(({ value, read }) => (read.kind === 'number' ? [{ value, number: read.value }] : []));
  if (typed.length < 2) return [{ code: 'too-few' }];
  const twice = typed.find(({ number }, i) => typed.findIndex((other) => other.number === number) !== i);
  if (twice) return [{ code: 'twice', value: twice.value }];
  const numbers = typed.map(({ number }) => number);
  if (isMonotone(numbers)) return [];
  // The one value without which the others are in order, if there is one.
  const stray = numbers.findIndex((_, i) => isMonotone(numbers.toSpliced(i, 1)));
  return [{ code: 'out-of-order', value: typed[Math.max(0, stray)]!.value }];
}

function isMonotone(numbers: readonly number[]): boolean {
  const rising = numbers.at(-1)! > numbers[0]!;
  return numbers.slice(1).every((number, i) => rising === number > numbers[i]!);
}

/** Where a typing slip is likelier than a bottle that prints it: our own limits, in the scale's unit. */
const USUAL: Record<PadQuantity, readonly [number, number]> = {
  'free-chlorine': [0, 30],
  'total-chlorine': [0, 30],
  ph: [4, 10],
  'total-alkalinity': [0, 600],
  'total-hardness': [0, 2000],
  'cyanuric-acid': [0, 400],
  salt: [0, 10_000],
};

/** Values that look mistyped, as typed. */
export function unlikelyValues(row: Row): string[] {
  const { parameter, unit, marks } = row;
  if (parameter === null) return [];
  const [low, high] = USUAL[parameter];
  return marks.flatMap(({ value }) => {
    const number = numberOf(row, value);
    if (number === null) return [];
    const inScale = toScaleUnit(number, unit);
    return inScale < low || inScale > high ? [value] : [];
  });
}

function toScaleUnit(value: number, unit: RowUnit): number {
  if (unit === 'pH' || unit === 'mg/L') return value;
  return Math.round(10 * convert('hardness', value, unit, 'mg/L')) / 10;
}

function fromScaleUnit(value: number, unit: RowUnit): number {
  return unit === 'pH' ? value : convert('hardness', value, 'mg/L', unit);
}

export interface RowResult {
  readonly parameter: PadQuantity;
  readonly unit: 'mg/L' | 'pH';
  /** Rising. */
  readonly values: readonly number[];
  /** Of the marks, in the order of the values. */
  readonly order: readonly number[];
}

/** @param row one without problems */
export function resultOf(row: Row): RowResult {
  const { parameter, unit, marks } = row;
  if (parameter === null) throw new Error('the row measures nothing yet');
  const typed = marks
    .flatMap(({ value }, index) =>
      value.trim() === '' ? [] : [{ value: toScaleUnit(numberOf(row, value)!, unit), index }],
    )
    .sort((one, other) => one.value - other.value);
  return {
    parameter,
    unit: parameter === 'ph' ? 'pH' : 'mg/L',
    values: typed.map(({ value }) => value),
    order: typed.map(({ index }) => index),
  };
}

/** What belongs to a row's marks, in the order of its result. */
export function inOrder<T>(things: readonly T[], { order }: RowResult): T[] {
  return order.map((index) => things[index]!);
}
