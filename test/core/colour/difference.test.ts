import Color from 'colorjs.io';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ciede2000 } from '../../../src/core/colour/difference.ts';
import type { Triple } from '../../../src/core/colour/lab.ts';
import { readTable } from '../../reference/read-table.ts';

// Sharma, Wu & Dalal 2005, Table 1: 34 pairs at four decimals.
const pairs = readTable('ciede2000-sharma-2005.csv').map((row) => ({
  pair: row['pair']!,
  one: [Number(row['L1']), Number(row['a1']), Number(row['b1'])] as Triple,
  two: [Number(row['L2']), Number(row['a2']), Number(row['b2'])] as Triple,
  published: Number(row['dE00']),
}));

describe('CIEDE2000', () => {
  it('has all 34 published pairs to compare with', () => {
    expect(pairs).toHaveLength(34);
  });

  it.each(pairs)('gives the published $published for pair $pair, both ways round', ({ one, two, published }) => {
    expect(ciede2000(one, two)).toBeCloseTo(published, 4);
    expect(ciede2000(two, one)).toBeCloseTo(published, 4);
  });

  it('agrees with colorjs.io, a second library, on random pairs', () => {
    const lab = fc.tuple(
      fc.double({ min: 0, max: 100, noNaN: true }),
      fc.double({ min: -100, max: 100, noNaN: true }),
      fc.double({ min: -100, max: 100, noNaN: true }),
    );
    fc.assert(
      fc.property(lab, lab, (one, two) => {
        // The formula knows no white point; colorjs.io takes the numbers untouched only in its own 'lab'.
        const theirs = new Color('lab', one).deltaE(new Color('lab', two), '2000');
        expect(Math.abs(ciede2000(one, two) - theirs)).toBeLessThan(1e-6);
      }),
      { seed: 20051, numRuns: 2000 },
    );
  });
});
