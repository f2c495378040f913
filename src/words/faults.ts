/** What is wrong with a scale, where and in a sentence: for the owner on the page, and for the command. */
import type { Fault } from '../core/fault.ts';
import { capitalised } from './grammar.ts';
import { formatValue } from './numbers.ts';

/** "Pad 2, block 3, value: block values must rise …." */
export function faultSentence(fault: Fault): string {
  const where = whereText(fault.path);
  return where === '' ? `${capitalised(faultText(fault))}.` : `${where}: ${faultText(fault)}.`;
}

/** As a line of a command. */
export function faultLine(fault: Fault): string {
  const where = whereText(fault.path);
  return where === '' ? faultText(fault) : `${where}: ${faultText(fault)}`;
}

/** A path that a person can follow, counted from one. */
export function whereText(path: Fault['path']): string {
  return path
    .map((key, i) => {
      if (typeof key !== 'number') return key;
      const of = path[i - 1];
      return of === 'pads' ? `pad ${key + 1}` : of === 'blocks' ? `block ${key + 1}` : `${key + 1}`;
    })
    .filter((part) => part !== 'pads' && part !== 'blocks')
    .join(', ');
}

/** What is wrong, whatever the field. */
const SAID: Readonly<Record<string, (facts: Readonly<Record<string, unknown>>) => string>> = {
  'file-too-large': () => 'the file is larger than any scale',
  'not-json': () => 'the file is not JSON: choose a file that was saved from the scales page',
  'values-not-rising': ({ value, before }) =>
    `block values must rise along the chart, but ${formatValue(Number(value))} comes after ${formatValue(Number(before))}`,
  'other-unit': ({ parameter, unit }) => `${String(parameter)} has the unit '${String(unit)}'`,
  'ph-too-high': ({ value, limit }) =>
    `a pH can’t be above ${String(limit)}, but a block says ${formatValue(Number(value))}`,
  'window-ends-first': () => 'the reading window must end after it begins',
  'colours-missing': () => 'a teaching photo must have a colour for every block of every pad',
  'beyond-strip': () => 'the pad lies beyond the strip',
  'pads-overlap': () => 'pads must be in order from the pad end and must not overlap',
  'appears-twice': ({ parameter }) => `${String(parameter)} appears twice`,
};

/** What is wrong with one field, however it is wrong. */
const OF_FIELD: Readonly<Record<string, string>> = {
  format: "this isn’t a strip scale: format must be 'dipwise-scale'",
  version: 'this scale was made by another version of Dipwise',
  id: 'id must be lower-case letters, digits and hyphens',
  white: "white must be 'D65': convert the colours first",
  pads: 'the scale needs at least one pad, and at most 12',
  blocks: 'a pad needs at least two blocks, and at most 40',
  name: 'the scale needs a name, of at most 120 letters',
};

/** What is said of a field in a sentence, and the unit of its limits. */
interface Field {
  readonly name: string;
  readonly unit?: 'mm' | 's';
}

const FIELDS: Readonly<Record<string, Field>> = {
  parameter: { name: 'what a pad measures' },
  unit: { name: 'the unit of a pad' },
  value: { name: 'a block value' },
  widthMm: { name: 'a length', unit: 'mm' },
  heightMm: { name: 'a width', unit: 'mm' },
  lengthMm: { name: 'the length of the strip', unit: 'mm' },
  centreMm: { name: 'the middle of a pad', unit: 'mm' },
  dipSeconds: { name: 'the dip', unit: 's' },
  readAfterSeconds: { name: 'the wait before reading', unit: 's' },
  readBeforeSeconds: { name: 'the end of the reading window', unit: 's' },
};
const LAB = ['L*', 'a*', 'b*'];

function faultText({ path, code, limit, inclusive, allowed, facts }: Fault): string {
  const own = SAID[code];
  if (own) return own(facts ?? {});
  const last = path.at(-1);
  if (path.length === 0) return OF_FIELD['format']!;
  if (typeof last === 'string' && OF_FIELD[last] !== undefined) return OF_FIELD[last];
  const { name, unit: of } = fieldAt(path);
  const unit = of ? ` ${of}` : '';
  switch (code) {
    case 'not-a-number':
      return `${name} must be a number`;
    case 'too-small':
      if (limit === 0 && inclusive) return `${name} can’t be less than 0${unit}`;
      return `${name} must be ${inclusive ? 'at least' : 'more than'} ${formatValue(limit!)}${unit}`;
    case 'too-large':
      return `${name} must be at most ${formatValue(limit!)}${unit}`;
    case 'not-one-of':
      return `${name} must be one of: ${allowed!.join(', ')}`;
    default:
      return `${name} is missing, or not what it should be`;
  }
}

function fieldAt(path: Fault['path']): Field {
  const [last, before] = [path.at(-1)!, path.at(-2)];
  if (typeof last === 'number')
    return { name: before === 'lab' || before === 'dry' || before === 'base' ? LAB[last]! : 'this' };
  if (last === 'widthMm' && before === 'strip') return { name: 'the width of the strip', unit: 'mm' };
  return FIELDS[last] ?? { name: last };
}
