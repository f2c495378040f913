import { labToLinear, linearToLab } from '../../../src/core/colour/lab.ts';
import type { Triple } from '../../../src/core/colour/lab.ts';
import { tritanopic } from '../../../src/core/colour/tritan.ts';
import { asSeenWith, DEFICIENCIES } from '../../../src/core/colour/vision.ts';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readTable } from '../../reference/read-table.ts';
import type { Row } from '../../reference/read-table.ts';

const matrixOf = (row: Row): number[][] => [0, 1, 2].map((i) => [0, 1, 2].map((j) => Number(row[`m${i}${j}`])));
const times = (matrix: number[][], v: Triple) => matrix.map((r) => r[0]! * v[0] + r[1]! * v[1] + r[2]! * v[2]);
const close = (actual: readonly number[], expected: readonly number[], within: number) => {
  actual.forEach((x, i) => expect(Math.abs(x - expected[i]!)).toBeLessThanOrEqual(within));
};
/** Some surface colours, linear sRGB. */
const light = fc.tuple(
  fc.double({ min: 0.02, max: 1, noNaN: true }),
  fc.double({ min: 0.02, max: 1, noNaN: true }),
  fc.double({ min: 0.02, max: 1, noNaN: true }),
);

describe('protan and deutan, against the matrices published by Machado, Oliveira & Fernandes 2009', () => {
  const rows = readTable('cvd-machado-2009.csv').filter(({ type }) => type !== 'tritan');
  it('has the table', () => expect(rows).toHaveLength(4));

  it.each(rows.map((row) => ({ row, name: `${row['type']} ${row['severity']}` })))('$name', ({ row }) => {
    const deficiency = row['type'] === 'protan' ? 'protan' : 'deutan';
    fc.assert(
      fc.property(light, (rgb) => {
        const seen = labToLinear(asSeenWith(deficiency, Number(row['severity']), linearToLab(rgb)));
        close(seen, times(matrixOf(row), rgb), 1e-6);
      }),
      { seed: 6, numRuns: 50 },
    );
  });
});

describe('tritan, against Brettel, Vienot & Mollon 1997 as libDaltonLens precomputed it', () => {
  const rows = readTable('cvd-brettel-1997-tritan.csv');
  // The first edition has our colour-matching functions; the second uses others, so the last digits differ more.
  it.each([
    { edition: '2021', within: 0.0005 },
    { edition: '2022', within: 0.02 },
  ])('edition $edition within $within', ({ edition, within }) => {
    const halves = rows.filter((row) => row['edition'] === edition);
    expect(halves).toHaveLength(2);
    fc.assert(
      fc.property(light, (rgb) => {
        const [first, second] = halves as [Row, Row];
        const side =
          rgb[0] * Number(first['normal_r']) + rgb[1] * Number(first['normal_g']) + rgb[2] * Number(first['normal_b']);
        // On the seam the rounded normals can't say which half a colour belongs to, and both give the same.
        fc.pre(Math.abs(side) > 1e-4);
        close(tritanopic(rgb), times(matrixOf(side >= 0 ? first : second), rgb), within);
      }),
      { seed: 6, numRuns: 200 },
    );
  });
});

describe('tritan by its strength', () => {
  it('is the dichromat at 1, and half way to it in light at one half', () => {
    fc.assert(
      fc.property(light, (rgb) => {
        const full = tritanopic(rgb);
        const seen = (strength: number) => labToLinear(asSeenWith('tritan', strength, linearToLab(rgb)));
        close(seen(1), full, 1e-6);
        close(
          seen(0.5),
          rgb.map((value, i) => (value + full[i]!) / 2),
          1e-6,
        );
      }),
      { seed: 6, numRuns: 50 },
    );
  });
});

describe.each(DEFICIENCIES)('%s', (deficiency) => {
  it('changes nothing at strength 0', () => {
    close(asSeenWith(deficiency, 0, [60, 20, -30]), [60, 20, -30], 1e-4);
  });

  it('leaves greys grey at every strength', () => {
    for (const strength of [0.3, 0.7, 1]) {
      const [l, a, b] = asSeenWith(deficiency, strength, [55, 0, 0]);
      close([l, a, b], [55, 0, 0], 0.05);
    }
  });

  it('refuses a strength outside 0 to 1', () => {
    expect(() => asSeenWith(deficiency, 1.1, [50, 0, 0])).toThrow(RangeError);
    expect(() => asSeenWith(deficiency, -0.1, [50, 0, 0])).toThrow(RangeError);
    expect(() => asSeenWith(deficiency, Number.NaN, [50, 0, 0])).toThrow(RangeError);
  });
});
