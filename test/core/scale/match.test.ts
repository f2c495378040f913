import { describe, expect, it } from 'vitest';
import type { Triple } from '../../../src/core/colour/lab.ts';
import { matchPads, matchRows } from '../../../src/core/scale/match.ts';

const yellowToRed: Triple[] = [
  [86, 3, 60],
  [74, 25, 45],
  [62, 48, 25],
];
const whiteToPink: Triple[] = [
  [93, 0, 2],
  [82, 22, -6],
  [72, 42, -12],
];
const greenToBlue: Triple[] = [
  [78, -14, 34],
  [70, -24, 6],
  [62, -22, -22],
];
const rows = [yellowToRed, whiteToPink, greenToBlue];

/** Two greys as far above L* 50 as below differ, CIEDE2000, by just their L*: S_L is 1 there. */
const grey = (lightness: number): Triple => [lightness, 0, 0];

describe('pads to rows', () => {
  it('finds the order in which the colours fit', () => {
    const pads: Triple[] = [
      [66, -22, -8],
      [80, 14, 52],
      [88, 8, -2],
    ];
    expect(matchPads(pads, rows)).toEqual([2, 0, 1]);
  });

  it('says nothing when the colours fit no row, or several orders alike', () => {
    expect(
      matchPads(
        [
          [20, 0, 0],
          [20, 0, 0],
          [20, 0, 0],
        ],
        rows,
      ),
    ).toBeNull();
    const white: Triple = [93, 0, 2];
    expect(matchPads([white, white], [whiteToPink, [white, [80, -20, 20]]])).toBeNull();
    expect(matchPads([white], rows)).toBeNull();
  });

  it('wants as many pads as rows, and any at all', () => {
    const [white, yellow] = [whiteToPink[0]!, yellowToRed[0]!];
    expect(matchPads([white], [whiteToPink, yellowToRed])).toBeNull();
    expect(matchPads([white, yellow], [whiteToPink])).toBeNull();
    expect(matchPads([], [])).toBeNull();
  });

  it('counts a pad up to 14 from its row, and none further off', () => {
    expect(matchPads([grey(57)], [[grey(43)]])).toEqual([0]);
    expect(matchPads([grey(57.1)], [[grey(42.9)]])).toBeNull();
    const white = whiteToPink[0]!;
    expect(matchPads([white, grey(57)], [whiteToPink, [grey(43)]])).toEqual([0, 1]);
    expect(matchPads([white, grey(57.1)], [whiteToPink, [grey(42.9)]])).toBeNull();
  });

  it('goes by the colours between two blocks too', () => {
    // Halfway; to either block it is 20 / 1.14 = 17.6, with S_L = 1 + 0.015 * 100 / sqrt(120) = 1.14.
    expect(matchPads([grey(50)], [[grey(30), grey(70)]])).toEqual([0]);
  });

  it('finds the chart’s own order, from either end', () => {
    const pads = rows.map((row) => row[1]!);
    expect(matchPads(pads, rows)).toEqual([0, 1, 2]);
    expect(matchPads(pads.toReversed(), rows)).toEqual([2, 1, 0]);
  });

  it('wants another order to fit better by three tenths than the chart’s own', () => {
    const chart = [yellowToRed, [grey(48)], [grey(52)]];
    const yellow = yellowToRed[0]!;
    // As they stand 3.9 + 3.9, the other way 0.1 + 0.1.
    expect(matchPads([yellow, grey(51.9), grey(48.1)], chart)).toEqual([0, 2, 1]);
    // As they stand 2.2 + 2.2, the other way 1.8 + 1.8: more than 0.7 of it.
    expect(matchPads([yellow, grey(50.2), grey(49.8)], chart)).toBeNull();
  });
});

describe('rows to rows', () => {
  const warmer = (row: readonly Triple[]) => row.map(([l, a, b]): Triple => [l - 2, a + 3, b + 4]);

  it('knows rows again in other light, also from their other end', () => {
    const seen = [warmer(greenToBlue).reverse(), warmer(yellowToRed), warmer(whiteToPink)];
    expect(matchRows(seen, rows)).toEqual([
      { known: 2, reversed: true },
      { known: 0, reversed: false },
      { known: 1, reversed: false },
    ]);
  });

  it('leaves a row with another number of blocks, or other colours, unknown', () => {
    const other: Triple[] = [
      [40, 10, -60],
      [30, 20, -70],
      [20, 30, -80],
    ];
    expect(matchRows([yellowToRed.slice(0, 2), other], rows)).toEqual([null, null]);
    expect(matchRows([yellowToRed], [yellowToRed.slice(0, 2)])).toEqual([null]);
  });

  it('takes a row for one within 16 of it in the mean, and for none further off', () => {
    expect(matchRows([[grey(58)]], [[grey(42)]])).toEqual([{ known: 0, reversed: false }]);
    expect(matchRows([[grey(58.1)]], [[grey(41.9)]])).toEqual([null]);
  });

  it('gives a known row to the one most like it, and to no other', () => {
    const [like, same] = [warmer(yellowToRed), yellowToRed];
    expect(matchRows([like, same], [yellowToRed])).toEqual([null, { known: 0, reversed: false }]);
    expect(matchRows([same, like], [yellowToRed])).toEqual([{ known: 0, reversed: false }, null]);
  });
});
