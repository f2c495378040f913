import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  areaScale,
  compose,
  fitHomography,
  fromUnitSquare,
  type Homography,
  invert,
  type Point,
  project,
} from '../../../src/core/card/homography.ts';

const coordinate = fc.double({ min: -1, max: 1, noNaN: true });

/** A camera's view of a plane: turned, tilted by up to about 50 degrees, scaled and shifted. */
const view = fc
  .record({
    turn: coordinate,
    tiltX: coordinate,
    tiltY: coordinate,
    scale: fc.double({ min: 5, max: 25, noNaN: true }),
  })
  .map(({ turn, tiltX, tiltY, scale }): Homography => {
    const [c, s] = [Math.cos(turn * Math.PI) * scale, Math.sin(turn * Math.PI) * scale];
    return [c, -s, 2000, s, c, 1500, tiltX * 0.003, tiltY * 0.003, 1];
  });

const GRID: Point[] = [-70, -30, 0, 45, 74].flatMap((x) => [-52, -10, 20, 52].map((y): Point => [x, y]));

function distance(one: Point, other: Point): number {
  return Math.hypot(one[0] - other[0], one[1] - other[1]);
}

describe('fitting a homography', () => {
  it('gets back the view from exact points', () => {
    fc.assert(
      fc.property(view, (h) => {
        const fitted = fitHomography(GRID.map((from) => ({ from, to: project(h, from) })))!;
        for (const point of GRID) expect(distance(project(fitted, point), project(h, point))).toBeLessThan(1e-6);
      }),
      { seed: 1, numRuns: 100 },
    );
  });

  it('leaves a smaller sum of squares than any neighbour of its answer', () => {
    const wobble = (i: number) => Math.sin(12.9898 * (i + 1)) * 0.8;
    fc.assert(
      fc.property(view, (h) => {
        const pairs = GRID.map((from, i) => {
          const [u, v] = project(h, from);
          return { from, to: [u + wobble(i), v + wobble(i + 50)] as Point };
        });
        const cost = (map: Homography) =>
          pairs.reduce((sum, { from, to }) => sum + distance(project(map, from), to) ** 2, 0);
        const fitted = fitHomography(pairs)!;
        for (let i = 0; i < 8; i++) {
          for (const by of [1 - 1e-5, 1 + 1e-5]) {
            const moved = fitted.map((value, k) => (k === i ? value * by : value)) as unknown as Homography;
            expect(cost(moved)).toBeGreaterThanOrEqual(cost(fitted) * (1 - 1e-9));
          }
        }
      }),
      { seed: 2, numRuns: 40 },
    );
  });

  it('has no answer for too few points or for points on a line', () => {
    const onLine = [0, 1, 2, 3].map((x) => ({ from: [x, x] as Point, to: [x, 2 * x] as Point }));
    expect(fitHomography(onLine)).toBeNull();
    expect(fitHomography(onLine.slice(0, 3))).toBeNull();
  });
});

describe('using a homography', () => {
  it('goes there and back', () => {
    fc.assert(
      fc.property(view, coordinate, coordinate, (h, x, y) => {
        const point: Point = [x * 74, y * 52];
        expect(distance(project(invert(h), project(h, point)), point)).toBeLessThan(1e-9);
        expect(distance(project(compose(invert(h), h), point), point)).toBeLessThan(1e-9);
      }),
      { seed: 3, numRuns: 100 },
    );
  });

  it('takes the unit square to four corners', () => {
    const corners = [
      [10, 20],
      [110, 35],
      [95, 140],
      [5, 120],
    ] as const;
    const h = fromUnitSquare(corners);
    const square: Point[] = [
      [0, 0],
      [1, 0],
      [1, 1],
      [0, 1],
    ];
    square.forEach((point, i) => expect(distance(project(h, point), corners[i]!)).toBeLessThan(1e-9));
  });

  it('knows how much it enlarges, and whether it mirrors', () => {
    expect(areaScale([3, 0, 5, 0, 2, 7, 0, 0, 1], [9, 9])).toBeCloseTo(6);
    expect(areaScale([-3, 0, 5, 0, 2, 7, 0, 0, 1], [9, 9])).toBeCloseTo(-6);
    fc.assert(
      fc.property(view, coordinate, coordinate, (h, x, y) => {
        const e = 1e-4;
        const [a, b, c] = [project(h, [x, y]), project(h, [x + e, y]), project(h, [x, y + e])];
        const numeric = ((b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1])) / (e * e);
        expect(areaScale(h, [x, y]) / numeric).toBeCloseTo(1, 3);
      }),
      { seed: 4, numRuns: 50 },
    );
  });
});

describe('turning a map round', () => {
  it('gives the inverse of a scaling and a shift, by hand', () => {
    // u = 2 x + 10, v = 4 y + 20.
    expect(invert([2, 0, 10, 0, 4, 20, 0, 0, 1])).toEqual([0.5, 0, -5, 0, 0.25, -5, 0, 0, 1].map((value) => value + 0));
  });

  it('refuses a map that lays everything on one line, or in one place', () => {
    // The second row is twice the first.
    expect(() => invert([1, 2, 3, 2, 4, 6, 1, 1, 1])).toThrow(RangeError);
    expect(() => invert([0, 0, 3, 0, 0, 6, 0, 0, 1])).toThrow(RangeError);
    expect(() => invert([NaN, 0, 0, 0, 1, 0, 0, 0, 1])).toThrow(RangeError);
  });
});
