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
    expect(matchRows([yellowToRed.slice(1), other], rows)).toEqual([null, null]);
  });
});
