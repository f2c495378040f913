import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Point } from '../../../src/core/card/homography.ts';
import { boxAround, hullOf } from '../../../src/vision/chart/shape.ts';

const points = fc.array(
  fc.tuple(fc.integer({ min: -50, max: 50 }), fc.integer({ min: -50, max: 50 })) as fc.Arbitrary<Point>,
  { minLength: 3, maxLength: 40 },
);

describe('hull', () => {
  test('keeps every point inside, and only corners', () => {
    fc.assert(
      fc.property(points, (all) => {
        const hull = hullOf(all);
        hull.forEach(([ax, ay], i) => {
          const [bx, by] = hull[(i + 1) % hull.length]!;
          for (const [x, y] of all) expect((bx - ax) * (y - ay) - (by - ay) * (x - ax)).toBeGreaterThanOrEqual(0);
        });
      }),
      { seed: 4, numRuns: 200 },
    );
  });
});

describe('box', () => {
  test('of a turned rectangle is the rectangle', () => {
    const turn = 0.4;
    const corner = (u: number, v: number): Point => [
      10 + u * Math.cos(turn) - v * Math.sin(turn),
      20 + u * Math.sin(turn) + v * Math.cos(turn),
    ];
    const box = boxAround(hullOf([corner(-6, -2), corner(6, -2), corner(6, 2), corner(-6, 2), corner(1, 1)]));
    expect(box.length).toBeCloseTo(12, 6);
    expect(box.width).toBeCloseTo(4, 6);
    expect(box.centre[0]).toBeCloseTo(10, 6);
    expect(box.centre[1]).toBeCloseTo(20, 6);
    expect(Math.abs(box.along[0] * Math.cos(turn) + box.along[1] * Math.sin(turn))).toBeCloseTo(1, 6);
  });
});
