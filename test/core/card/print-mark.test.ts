import { describe, expect, it } from 'vitest';
import {
  comparePrints,
  isPrintMark,
  MIN_MARK,
  MAX_MARK,
  parsePrintMarkBits,
  printMarkAt,
  printMarkBits,
  printMarkName,
} from '../../../src/core/card/print-mark.ts';
import { randomFrom } from '../../vision/pictures.ts';

const ALL = Array.from({ length: MAX_MARK - MIN_MARK + 1 }, (_, i) => MIN_MARK + i);
const weight = (bits: readonly boolean[]) => bits.filter(Boolean).length;
const flipped = (bits: readonly boolean[], cells: readonly number[]) =>
  bits.map((bit, i) => (cells.includes(i) ? !bit : bit));

describe('the mark of a print', () => {
  it('is a word of the extended Golay code', () => {
    const counts = new Map<number, number>();
    for (let mark = 0; mark < 4096; mark++) {
      const blacks = weight(printMarkBits(mark));
      counts.set(blacks, (counts.get(blacks) ?? 0) + 1);
    }
    // F. J. MacWilliams, N. J. A. Sloane, The Theory of Error-Correcting Codes, 1977, chapter 2 (from memory).
    expect([...counts].sort(([one], [other]) => one - other)).toEqual([
      [0, 1],
      [8, 759],
      [12, 2576],
      [16, 759],
      [24, 1],
    ]);
  });

  it('reads back, also with any one cell wrong', () => {
    for (const mark of ALL) {
      expect(parsePrintMarkBits(printMarkBits(mark))).toBe(mark);
      expect(parsePrintMarkBits(flipped(printMarkBits(mark), [mark % 24]))).toBe(mark);
    }
  });

  it('is never mistaken for another with up to six cells wrong', () => {
    const random = randomFrom(7);
    for (let round = 0; round < 1500; round++) {
      const mark = printMarkAt(random());
      const cells = Array.from({ length: 24 }, (_, i) => i).sort(() => random() - 0.5);
      const wrong = cells.slice(0, 2 + (round % 5));
      expect(parsePrintMarkBits(flipped(printMarkBits(mark), wrong))).toBeNull();
    }
  });

  it('is none on bare paper, in a shadow, and where cells are missing', () => {
    const all = (black: boolean) => Array.from({ length: 24 }, () => black);
    for (const bits of [all(false), all(true), flipped(all(false), [3]), flipped(all(true), [9]), [], [true]]) {
      expect(parsePrintMarkBits(bits)).toBeNull();
    }
  });

  it('is drawn evenly, and named by three digits', () => {
    expect([printMarkAt(0), printMarkAt(0.999999)]).toEqual([MIN_MARK, MAX_MARK]);
    expect(printMarkAt(0.5)).toBeCloseTo(2048, -1);
    expect([1, 0xa3f, 0xffe].map(printMarkName)).toEqual(['001', 'A3F', 'FFE']);
    expect([0, 1.5, 4095, Number.NaN].some(isPrintMark)).toBe(false);
  });
});

describe('two photos of cards', () => {
  const seen = (version: number | null, printMark: number | null) => ({ version, printMark });

  it.each([
    ['the same mark', seen(2, 7), seen(2, 7), 'same'],
    ['the same mark, a version code that couldn’t be read', seen(null, 7), seen(2, 7), 'same'],
    ['two marks', seen(2, 7), seen(2, 8), 'another'],
    ['a card from before marks, and a new one', seen(1, null), seen(2, 7), 'another'],
    ['a new card whose mark can’t be read, and an old one', seen(2, null), seen(1, null), 'another'],
    ['two cards from before marks', seen(1, null), seen(1, null), 'unknown'],
    ['a mark that can’t be read', seen(2, null), seen(2, 7), 'unknown'],
    ['nothing that could be read', seen(null, null), seen(1, null), 'unknown'],
  ])('%s', (_, one, other, answer) => {
    expect(comparePrints(one, other)).toBe(answer);
    expect(comparePrints(other, one)).toBe(answer);
  });
});
