import { describe, expect, it } from 'vitest';
import { FIDUCIALS } from '../../../src/core/card/geometry.ts';
import { type Homography, project } from '../../../src/core/card/homography.ts';
import { assemble, printedCorners, type Seen } from '../../../src/vision/card/assemble.ts';
import type { Quad } from '../../../src/vision/card/quads.ts';

const ONE: Homography = [5.5, -0.8, 120, 0.9, 5.2, 90, 0.0012, 0.0004, 1];
const OTHER: Homography = [-4, 0.5, 1500, -0.6, -4.2, 900, -0.0003, 0.0002, 1];
const MIRRORED: Homography = [-5, 0.8, 1100, 0.9, 5.2, 90, 0.0008, 0.0004, 1];

function see(view: Homography, index: number, mirrored = false): Seen {
  const corners = printedCorners(FIDUCIALS[index]!).map((corner) => project(view, corner)) as unknown as Quad;
  return { index, corners, mirrored, wrongCells: 0, blurMm: 0.1 };
}

const ALL = [0, 1, 2, 3];

describe('assembling fiducials', () => {
  it('makes one card of four, three or two that fit', () => {
    for (const indices of [ALL, [0, 1, 3], [1, 2, 3], [0, 3], [1, 2]]) {
      const [placement, ...others] = assemble(indices.map((index) => see(ONE, index)));
      expect(others).toEqual([]);
      expect(placement!.seen.map((seen) => seen.index).sort()).toEqual(indices);
      const [x, y] = project(placement!.toPhoto, [74, 52]);
      const [trueX, trueY] = project(ONE, [74, 52]);
      expect(Math.hypot(x - trueX, y - trueY)).toBeLessThan(1e-3);
    }
  });

  it('keeps two cards apart, the one with more fiducials first', () => {
    const placements = assemble([
      ...[0, 1, 2].map((index) => see(ONE, index)),
      ...ALL.map((index) => see(OTHER, index)),
    ]);
    expect(placements.map((placement) => placement.seen.length)).toEqual([4, 3]);
  });

  it('tells a mirrored card, and mixes none with one that isn’t', () => {
    const placements = assemble(ALL.map((index) => see(MIRRORED, index, true)));
    expect(placements).toHaveLength(1);
    expect(placements[0]!.mirrored).toBe(true);
    expect(assemble([see(ONE, 0), see(MIRRORED, 1, true)])).toEqual([]);
  });

  it('leaves out a fiducial that is somewhere else', () => {
    const stray: Seen = {
      ...see(ONE, 3),
      corners: see(ONE, 3).corners.map(([x, y]) => [x - 300, y + 80]) as unknown as Quad,
    };
    const [placement] = assemble([see(ONE, 0), see(ONE, 1), see(ONE, 2), stray]);
    expect(placement!.seen.map((seen) => seen.index).sort()).toEqual([0, 1, 2]);
  });

  it('takes no pair whose sizes and distance disagree', () => {
    const far: Seen = {
      ...see(ONE, 1),
      corners: see(ONE, 1).corners.map(([x, y]) => [x + 600, y]) as unknown as Quad,
    };
    expect(assemble([see(ONE, 0), far])).toEqual([]);
    expect(assemble([see(ONE, 0)])).toEqual([]);
  });
});
