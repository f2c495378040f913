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
    `a pH can't be above ${String(limit)}, but a block says ${formatValue(Number(value))}`,
  'window-ends-first': () => 'the reading window must end after it begins',
  'colours-missing': () => 'a teaching photo must have a colour for every block of every pad',
  'beyond-strip': () => 'the pad lies beyond the strip',
  'pads-overlap': () => 'pads must be in order from the pad end and must not overlap',
  'appears-twice': ({ parameter }) => `${String(parameter)} appears twice`,
};

/** What is wrong with one field, however it is wrong. */
const OF_FIELD: Readonly<Record<string, string>> = {
  format: "this isn't a strip scale: format must be 'dipwise-scale'",
  version: 'this scale was made by another version of Dipwise',
  id: 'id must be lower-case letters, digits and hyphens',
  white: "white must be 'D65': convert the colours first",
  pads: 'the scale needs at least one pad, and at most 12',
  blocks: 'a pad needs at least two blocks, and at most 40',
  name: 'the scale needs a name, of at most 120 letters',
};

const NAMES: Readonly<Record<string, string>> = {
  parameter: 'what a pad measures',
  unit: 'the unit of a pad',
  value: 'a block value',
  widthMm: 'a length',
  heightMm: 'a width',
  lengthMm: 'the length of the strip',
  centreMm: 'the middle of a pad',
  dipSeconds: 'the dip',
  readAfterSeconds: 'the wait before reading',
  readBeforeSeconds: 'the end of the reading window',
};
const LAB = ['L*', 'a*', 'b*'];

function faultText({ path, code, limit, inclusive, allowed, facts }: Fault): string {
  const own = SAID[code];
  if (own) return own(facts ?? {});
  const last = path.at(-1);
  if (path.length === 0) return OF_FIELD['format']!;
  if (typeof last === 'string' && OF_FIELD[last] !== undefined) return OF_FIELD[last];
  const name = nameOf(path);
  const unit = String(last).endsWith('Mm') ? ' mm' : String(last).endsWith('Seconds') ? ' s' : '';
  switch (code) {
    case 'not-a-number':
      return `${name} must be a number`;
    case 'too-small':
      if (limit === 0 && inclusive) return `${name} can't be less than 0${unit}`;
      return `${name} must be ${inclusive ? 'at least' : 'more than'} ${formatValue(limit!)}${unit}`;
    case 'too-large':
      return `${name} must be at most ${formatValue(limit!)}${unit}`;
    case 'not-one-of':
      return `${name} must be one of: ${allowed!.join(', ')}`;
    default:
      return `${name} is missing, or not what it should be`;
  }
}

function nameOf(path: Fault['path']): string {
  const [last, before] = [path.at(-1)!, path.at(-2)];
  if (typeof last === 'number') return before === 'lab' || before === 'dry' || before === 'base' ? LAB[last]! : 'this';
  if (last === 'widthMm' && before === 'strip') return 'the width of the strip';
  return NAMES[last] ?? last;
}
