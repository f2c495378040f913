import { describe, expect, test } from 'vitest';
import {
  filledBySteps,
  filledFrom,
  listOf,
  problemsOf,
  resultOf,
  type Row,
  rowOf,
  typedValue,
  unlikelyValues,
  withBlock,
  withParameter,
  withValue,
} from '../../../src/components/teach/rows.ts';
import type { BlockFound } from '../../../src/vision/messages.ts';

function block(x: number, y = 0): BlockFound {
  return {
    sample: { id: '', xMm: x, yMm: y, rgb: [0.5, 0.5, 0.5], scatter: [0, 0, 0], count: 9, clipped: 0, rejected: 0 },
    centre: [x, y],
    outline: [],
    sidesMm: [8, 8],
    label: null,
    snapped: true,
  };
}

function row(values: readonly string[]): Row {
  const marks = values.map((value, i) => ({ block: block(10 * i), value }));
  return { parameter: 'free-chlorine', unit: 'mg/L', marks };
}

const values = ({ marks }: Row) => marks.map(({ value }) => value);
const places = ({ marks }: Row) => marks.map(({ block: { centre } }) => centre[0]);
const codes = (one: Row) => problemsOf([one])[0]!.map(({ code }) => code);

describe('marking', () => {
  test('a block takes its place along the row, wherever in it it was tapped', () => {
    let one = rowOf([block(40)]);
    for (const x of [10, 30, 20, 0]) one = withBlock(one, block(x, x / 20));
    expect(places(one)).toEqual([0, 10, 20, 30, 40]);
  });

  test('an upright row runs down', () => {
    let one = rowOf([block(0, 30)]);
    for (const y of [10, 20]) one = withBlock(one, block(1, y));
    expect(one.marks.map(({ block: { centre } }) => centre[1])).toEqual([10, 20, 30]);
  });
});

describe('filling in', () => {
  test('by steps, up and down, without stray digits', () => {
    const three = row(['', '', '', '']);
    expect(values(filledBySteps(three, 6.2, 0.4))).toEqual(['6.2', '6.6', '7', '7.4']);
    expect(values(filledBySteps(three, 300, -60))).toEqual(['300', '240', '180', '120']);
  });

  test.each([
    ['0 0.5 1 2', ['0', '0.5', '1', '2']],
    ['0;40; 80', ['0', '40', '80']],
    ['6,4, 6,8, 7,2', ['6,4', '6,8', '7,2']],
    ['7,2', ['7,2']],
    ['', []],
  ])('"%s" is a list of %j', (text, list) => {
    expect(listOf(text)).toEqual(list);
  });

  test('a pasted list goes on from where it was pasted, and no further than the row', () => {
    expect(values(filledFrom(row(['1', '', '']), 1, ['2', '3', '4']))).toEqual(['1', '2', '3']);
  });

  test.each([
    ['7.2', 7.2],
    ['7,2', 7.2],
    [' 40 ', 40],
    ['', null],
    ['7.2.1', null],
    ['-3', null],
    ['1e9', null],
    ['seven', null],
    ['１２', 12],
    ['1,500', 1500],
  ])('"%s" reads as %j', (text, number) => {
    const typed = typedValue({ parameter: 'salt', unit: 'mg/L' }, text);
    expect(typed.kind === 'number' ? typed.value : null).toBe(number);
  });

  test('what a pad can show settles a number with two meanings', () => {
    expect(typedValue({ parameter: 'free-chlorine', unit: 'mg/L' }, '1,500')).toEqual({ kind: 'number', value: 1.5 });
    expect(typedValue({ parameter: 'total-hardness', unit: 'mmol/L' }, '1,250')).toEqual({
      kind: 'number',
      value: 1.25,
    });
    expect(typedValue({ parameter: 'total-hardness', unit: 'mg/L' }, '1.250')).toEqual({ kind: 'number', value: 1250 });
  });
});

describe('what is wrong', () => {
  test('nothing with a row that rises or falls', () => {
    expect(codes(row(['0', '0.5', '1,5', '3']))).toEqual([]);
    expect(codes(row(['3', '1.5', '', '0']))).toEqual([]);
  });

  test.each([
    [['', '2', ''], 'too-few'],
    [['0', 'x', '2'], 'not-a-number'],
    [['0', '2', '2'], 'twice'],
    [['0', '5', '1', '10'], 'out-of-order'],
  ])('%j: %s', (typed, code) => {
    expect(codes(row(typed))).toEqual([code]);
  });

  test('of values out of order the one is named without which the others are in order', () => {
    expect(problemsOf([row(['0', '0.5', '10', '2', '4', '8'])])[0]).toEqual([{ code: 'out-of-order', value: '10' }]);
    expect(problemsOf([row(['8.4', '8', '76', '7.2'])])[0]).toEqual([{ code: 'out-of-order', value: '76' }]);
  });

  test('a row that measures nothing, and two that measure the same', () => {
    expect(codes({ ...row(['0', '1']), parameter: null })).toEqual(['no-parameter']);
    expect(problemsOf([row(['0', '1']), row(['2', '3'])])[1]).toEqual([{ code: 'parameter-twice' }]);
  });

  test('values that no pool strip has', () => {
    expect(unlikelyValues(withParameter(row(['6.8', '7.2', '76']), 'ph'))).toEqual(['76']);
    expect(unlikelyValues(row(['0', '10']))).toEqual([]);
  });
});

describe('what a row comes to', () => {
  test('values rise, blocks go along, empty ones are left out', () => {
    expect(resultOf(row(['8', '', '4', '1']))).toEqual({
      parameter: 'free-chlorine',
      unit: 'mg/L',
      values: [1, 4, 8],
      order: [3, 2, 0],
    });
  });

  // One German degree is 10 mg/L of CaO, 17.85 mg/L of CaCO3 (DIN 38409-6).
  test('degrees of hardness become mg/L', () => {
    const hardness = { ...withParameter(row(['3', '7', '14']), 'total-hardness'), unit: 'dH' as const };
    expect(resultOf(hardness).values).toEqual([53.5, 124.9, 249.9]);
  });

  test('another unit is forgotten when the row turns out to be another measure', () => {
    const hardness = { ...withParameter(row(['1']), 'total-hardness'), unit: 'dH' as const };
    expect(withParameter(hardness, 'ph').unit).toBe('pH');
    expect(withValue(hardness, 0, '2').unit).toBe('dH');
  });
});
