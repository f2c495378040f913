import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { commonSlope, fitWithShare } from '../../../src/core/math/slope.ts';
import { t90 } from '../../../src/core/math/student.ts';
import { randomFrom } from '../log/random.ts';
import { readTable } from '../../reference/read-table.ts';

const norris = readTable('nist-strd-norris.csv')
  .map(({ x, y }): [number, number] => [Number(x), Number(y)])
  .sort(([a], [b]) => a - b);
/** NIST StRD, certified values of Norris. */
const CERTIFIED = { slope: 1.00211681802045, deviation: 0.429796848199937e-3, freedom: 34 };

describe('t90', () => {
  it.each(readTable('student-t-90.csv'))('is $t for $freedom degrees of freedom, as printed', ({ freedom, t }) => {
    // The expansion is off by a few units of the last printed digit at three and four degrees only.
    const tolerance = Number(freedom) === 3 || Number(freedom) === 4 ? 0.005 : 0.0006;
    expect(Math.abs(t90(Number(freedom)) - Number(t))).toBeLessThan(tolerance);
  });
});

describe('fitWithShare', () => {
  it('gives the certified slope and deviation of NIST’s Norris data without wandering', () => {
    const slope = fitWithShare([norris], 0)!.slope;
    expect(norris).toHaveLength(36);
    expect(slope.freedom).toBe(CERTIFIED.freedom);
    expect(slope.value).toBeCloseTo(CERTIFIED.slope, 11);
    expect(slope.deviation).toBeCloseTo(CERTIFIED.deviation, 12);
  });

  it('is rise over run when all is wandering', () => {
    // Worked by hand: steps of 2, 1 and 6 over 1, 1 and 4: 9 in 6.
    const slope = fitWithShare(
      [
        [
          [0, 0],
          [1, 2],
          [2, 3],
          [6, 9],
        ],
      ],
      1,
    )!.slope;
    expect(slope.value).toBeCloseTo(1.5, 12);
    // Off by 0.5, -0.5 and 0: 0.5 in 2 degrees of freedom is 0.25 for a unit of x, of which there are 6.
    expect(slope.deviation).toBeCloseTo(Math.sqrt(0.25 / 6), 12);
    expect(slope.freedom).toBe(2);
    // 2.920: student-t-90.csv.
    expect(slope.high - slope.value).toBeCloseTo(2.92 * Math.sqrt(0.25 / 6), 4);
    expect(slope.value - slope.low).toBeCloseTo(2.92 * Math.sqrt(0.25 / 6), 4);
  });

  // Steps of 4 over 1 and 0 over 3, half wandering: of 2 steps over 4, a share of 0.5 * 2/4 = 0.25 for a unit of x, and
  // 0.5 for a reading. Covariance ((1.25, -0.5), (-0.5, 1.75)), determinant 1.9375, inverse ((1.75, 0.5), (0.5, 1.25)) by
  // it. Steps of x times the inverse: (3.25, 4.25); times the steps of x: 16. Slope (3.25 * 4 + 4.25 * 0) / 16 = 0.8125.
  // Left over 3.1875 and -2.4375: (17.7803 - 7.7695 + 7.4268) / 1.9375 = 9; deviation root of 9 * 1.9375 / 16.
  it('weighs neighbouring steps by their covariance when it is some of both', () => {
    const points = [
      [0, 1],
      [1, 5],
      [4, 5],
    ] as const;
    const slope = fitWithShare([points], 0.5)!.slope;
    expect(slope.value).toBeCloseTo(0.8125, 12);
    expect(slope.deviation).toBeCloseTo(Math.sqrt((9 * 1.9375) / 16), 12);
    expect(slope.freedom).toBe(1);
    // A stretch of one point says nothing.
    expect(fitWithShare([[[9, 9]], points], 0.5)?.slope).toEqual(slope);
  });

  it('has its own errors for every stretch', () => {
    // Two stretches of one step each: rises of 2 and 4 over 1, without wandering each with the variance of two readings.
    const rise = (by: number) =>
      [
        [0, 0],
        [1, by],
      ] as const;
    const slope = fitWithShare([rise(2), rise(4)], 0)!.slope;
    // Mean 3; left over -1 and 1: variance of a rise 2, of the mean of two 1.
    expect(slope.value).toBeCloseTo(3, 12);
    expect(slope.deviation).toBeCloseTo(1, 12);
  });
});

describe('commonSlope', () => {
  it('does not mind how high each stretch lies', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -1000, max: 1000 }), { minLength: 3, maxLength: 3 }), (heights) => {
        const stretches = (shifts: readonly number[]) =>
          [norris.slice(0, 12), norris.slice(12, 20), norris.slice(20)].map((points, i) =>
            points.map(([x, y]): [number, number] => [x, y + shifts[i]!]),
          );
        const level = commonSlope(stretches([0, 0, 0]))!;
        const shifted = commonSlope(stretches(heights))!;
        expect(shifted.value).toBeCloseTo(level.value, 7);
        expect(shifted.deviation).toBeCloseTo(level.deviation, 7);
      }),
      { seed: 36 },
    );
  });

  it.each([
    ['reading error alone', 0.4, 0],
    ['both', 0.4, 0.57],
    ['wandering alone', 0, 0.7],
  ])('holds the truth about as often as it says: %s', (_name, error, wander) => {
    const { normal } = randomFrom(90);
    const runs = 600;
    let held = 0;
    for (let run = 0; run < runs; run++) {
      let level = 0;
      const points = Array.from({ length: 12 }, (_, i): [number, number] => {
        if (i > 0) level += 2 + wander * normal();
        return [2 * i, level + error * normal()];
      });
      const { low, high } = commonSlope([points])!;
      if (low <= 1 && 1 <= high) held += 1;
    }
    expect(held / runs).toBeGreaterThan(0.8);
  });

  it('is the line’s own where all points lie on one', () => {
    const line = [0, 1, 3, 4, 8].map((x): [number, number] => [x, 7 - 0.25 * x]);
    const { value, deviation } = commonSlope([line])!;
    expect(value).toBeCloseTo(-0.25, 12);
    expect(deviation).toBeCloseTo(0, 9);
  });

  it('tells reading error from wandering where there are points enough', () => {
    const { normal } = randomFrom(1971);
    const [read, wandered]: [number, number][][] = [[], []];
    let level = 0;
    for (let x = 0; x < 300; x++) {
      level += 1 + normal();
      read!.push([x, x + normal()]);
      wandered!.push([x, level]);
    }
    // 300 readings with an error of 1 alone: sqrt(12 / 300^3) = 0.0007; some wandering is never ruled out.
    expect(commonSlope([read!])!.deviation).toBeLessThan(0.02);
    expect(Math.abs(commonSlope([read!])!.value - 1)).toBeLessThan(0.02);
    // Steps of 1 +- 1: 1 / sqrt(299) = 0.058.
    const found = commonSlope([wandered!])!;
    expect(found.deviation).toBeGreaterThan(0.045);
    expect(found.deviation).toBeLessThan(0.07);
    expect(Math.abs(found.value - fitWithShare([wandered!], 0.95)!.slope.value)).toBeLessThan(0.03);
  });

  it('is less sure than any one share, by how far these are apart', () => {
    const points = [0, 3, 2, 6, 5, 9, 7].map((y, x): [number, number] => [x, y]);
    const shares = Array.from({ length: 20 }, (_, i) => fitWithShare([points], i / 20)!.slope);
    const { value, deviation } = commonSlope([points])!;
    const values = shares.map((slope) => slope.value);
    expect(value).toBeGreaterThan(Math.min(...values));
    expect(value).toBeLessThan(Math.max(...values));
    expect(deviation).toBeGreaterThan(Math.min(...shares.map((slope) => slope.deviation)));
    expect(deviation).toBeLessThan(
      Math.hypot(Math.max(...shares.map((slope) => slope.deviation)), Math.max(...values) - Math.min(...values)),
    );
  });

  it('gives nothing where nothing can be said', () => {
    expect(fitWithShare([], 0.5)).toBeNull();
    expect(commonSlope([])).toBeNull();
    expect(commonSlope([[[0, 1]], [[5, 2]]])).toBeNull();
    expect(
      commonSlope([
        [
          [0, 1],
          [1, 2],
        ],
      ]),
    ).toBeNull();
    expect(
      commonSlope([
        [
          [1, 1],
          [1, 2],
          [1, 3],
        ],
      ]),
    ).toBeNull();
  });
});
