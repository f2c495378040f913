import { describe, expect, it } from 'vitest';
import { fitHomography, type Point, project } from '../../../src/core/card/homography.ts';
import { startOpenCv, withMats } from '../opencv.ts';
import { randomFrom } from '../pictures.ts';

describe('the homography through noisy points', () => {
  it('is the one that OpenCV’s findHomography finds (least squares, refined by Levenberg-Marquardt)', () => {
    const cv = startOpenCv();
    const random = randomFrom(17);
    for (let run = 0; run < 30; run++) {
      const view = [6 + 4 * random(), 8 * random() - 4, 300, 8 * random() - 4, 5 + 4 * random(), 200] as const;
      const [g, h] = [0.004 * random() - 0.002, 0.004 * random() - 0.002];
      const pairs = Array.from({ length: 16 }, () => {
        const from: Point = [148 * random(), 105 * random()];
        const [x, y] = project([...view, g, h, 1], from);
        return { from, to: [x + 2 * random() - 1, y + 2 * random() - 1] as Point };
      });
      const ours = fitHomography(pairs)!;
      const theirs = withMats((keep) => {
        const matOf = (points: readonly Point[]) => keep(cv.matFromArray(points.length, 1, cv.CV_64FC2, points.flat()));
        const found = keep(cv.findHomography(matOf(pairs.map(({ from }) => from)), matOf(pairs.map(({ to }) => to))));
        return [...found.data64F] as unknown as Parameters<typeof project>[0];
      });
      for (const { from } of pairs) {
        const [ax, ay] = project(ours, from);
        const [bx, by] = project(theirs, from);
        expect(Math.hypot(ax - bx, ay - by)).toBeLessThan(0.002);
      }
    }
  });
});
