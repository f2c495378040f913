import { describe, expect, it } from 'vitest';
import { FIDUCIALS } from '../../../src/core/card/geometry.ts';
import { fitHomography, type Point } from '../../../src/core/card/homography.ts';
import { pairsOf, printedCorners } from '../../../src/vision/card/assemble.ts';
import type { Binarisation } from '../../../src/vision/card/binarise.ts';
import { sharpenCorners } from '../../../src/vision/card/edges.ts';
import { lookForMissing, searchFiducials } from '../../../src/vision/card/fiducials.ts';
import { brightnessAt, shrinkToGrey } from '../../../src/vision/card/grey.ts';
import { identify } from '../../../src/vision/card/identify.ts';
import { quadOf, type Quad } from '../../../src/vision/card/quads.ts';
import { photograph, randomFrom, type Shot } from '../pictures.ts';

const SHOT: Shot = {
  seed: 5,
  width: 1280,
  height: 960,
  fill: 0.8,
  turnDegrees: 25,
  tiltDegrees: 30,
  tiltAxisDegrees: 70,
  blurPx: 0.8,
  noise: 3,
  shade: 0.3,
};

const LOCAL: Binarisation = { method: 'local', window: 0.025, offset: 8, smoothPx: 0 };

function trueCorners(photo: ReturnType<typeof photograph>, index: number): Quad {
  return printedCorners(FIDUCIALS[index]!).map(([x, y]) => photo.toPhoto(x, y)) as unknown as Quad;
}

function distance([ax, ay]: Point, [bx, by]: Point): number {
  return Math.hypot(ax - bx, ay - by);
}

/** The boundary of a filled four-sided shape, as the outlines have it: pixel by pixel, clockwise. */
function boundary(corners: Quad): Int32Array {
  const points: number[] = [];
  corners.forEach(([ax, ay], i) => {
    const [bx, by] = corners[(i + 1) % 4]!;
    const steps = Math.ceil(Math.max(Math.abs(bx - ax), Math.abs(by - ay)));
    for (let k = 0; k < steps; k++) {
      points.push(Math.round(ax + ((bx - ax) * k) / steps), Math.round(ay + ((by - ay) * k) / steps));
    }
  });
  return Int32Array.from(points);
}

describe('four-sided shapes', () => {
  it('have the corners they were drawn with, to half a pixel', () => {
    const drawn: Quad = [
      [20, 30],
      [90, 22],
      [104, 88],
      [14, 96],
    ];
    const found = quadOf(boundary(drawn))!;
    // Half a pixel to the pixels' centres, half a pixel from there outward.
    const edges: Quad = [
      [20, 30],
      [91, 22],
      [105, 89],
      [14, 97],
    ];
    const nearest = edges.map((corner) => Math.min(...found.map((other) => distance(corner, other))));
    expect(Math.max(...nearest)).toBeLessThan(0.75);
  });

  it('aren’t discs, triangles or specks', () => {
    const disc = Array.from({ length: 400 }, (_, i) => (i * Math.PI) / 200).flatMap((a) => [
      Math.round(90 + 60 * Math.cos(a)),
      Math.round(90 + 60 * Math.sin(a)),
    ]);
    expect(quadOf(Int32Array.from(disc))).toBeNull();
    const triangle: Quad = [
      [10, 10],
      [80, 10],
      [45, 80],
      [45, 80],
    ];
    expect(quadOf(boundary(triangle))).toBeNull();
    expect(quadOf(Int32Array.from([1, 1, 2, 1, 2, 2, 1, 2]))).toBeNull();
  });
});

describe('identifying', () => {
  const photo = photograph({ ...SHOT, tiltDegrees: 0, turnDegrees: 0 });
  const brightness = (x: number, y: number) => brightnessAt(photo.pixels, x, y);

  it('knows each fiducial from any corner, and that it isn’t mirrored', () => {
    FIDUCIALS.forEach((_, index) => {
      const corners = trueCorners(photo, index);
      for (let turn = 0; turn < 4; turn++) {
        const turned = [0, 1, 2, 3].map((i) => corners[(i + turn) % 4]!) as unknown as Quad;
        expect(identify(turned, brightness)).toEqual({ index, corners, mirrored: false, wrongCells: 0 });
      }
    });
  });

  it('knows when it is mirrored', () => {
    const mirror = photograph({ ...SHOT, mirrored: true });
    const seen = (x: number, y: number) => brightnessAt(mirror.pixels, x, y);
    FIDUCIALS.forEach((_, index) => {
      const corners = trueCorners(mirror, index);
      const clockwise = [...corners].reverse() as unknown as Quad;
      expect(identify(clockwise, seen)).toEqual({ index, corners, mirrored: true, wrongCells: 0 });
    });
  });

  it('takes no grey patch for one, nor the empty paper', () => {
    for (const [x, y] of [
      [31.1, 25],
      [3, 88 - 30],
      [60, 45],
    ] as const) {
      const quad = printedCorners({ ...FIDUCIALS[0]!, xMm: x, yMm: y }).map(([u, v]) => photo.toPhoto(u, v));
      expect(identify(quad as unknown as Quad, brightness)).toBeNull();
    }
  });
});

describe('corners from edges', () => {
  it('come within a tenth of a pixel from two pixels off', () => {
    const random = randomFrom(11);
    const errors: number[] = [];
    for (const turnDegrees of [0, 33, 71, 200]) {
      const photo = photograph({ ...SHOT, turnDegrees, clutter: 6 });
      FIDUCIALS.forEach((_, index) => {
        const truth = trueCorners(photo, index);
        const rough = truth.map(([x, y]) => [x + 3 * random() - 1.5, y + 3 * random() - 1.5]) as unknown as Quad;
        const sharp = sharpenCorners(photo.pixels, rough)!;
        errors.push(...sharp.corners.map((corner, i) => distance(corner, truth[i]!)));
      });
    }
    expect(errors).toHaveLength(64);
    const rms = Math.sqrt(errors.reduce((sum, error) => sum + error * error, 0) / errors.length);
    expect(rms).toBeLessThan(0.1);
    expect(Math.max(...errors)).toBeLessThan(0.3);
  });

  it('give up where there is no dark frame', () => {
    const photo = photograph(SHOT);
    const paper = printedCorners({ ...FIDUCIALS[0]!, xMm: 60, yMm: 45 }).map(([x, y]) => photo.toPhoto(x, y));
    expect(sharpenCorners(photo.pixels, paper as unknown as Quad)).toBeNull();
  });
});

describe('searching fiducials', () => {
  it('finds all four and nothing else in clutter', () => {
    const photo = photograph({ ...SHOT, clutter: 30 });
    const seen = searchFiducials(photo.pixels, shrinkToGrey(photo.pixels, 1), LOCAL);
    expect(seen.map((fiducial) => fiducial.index).sort()).toEqual([0, 1, 2, 3]);
    for (const { index, corners } of seen) {
      const truth = trueCorners(photo, index);
      expect(Math.max(...corners.map((corner, i) => distance(corner, truth[i]!)))).toBeLessThan(0.4);
    }
  });

  it('looks for a missing one where the others say it is', () => {
    const photo = photograph(SHOT);
    const seen = searchFiducials(photo.pixels, shrinkToGrey(photo.pixels, 1), LOCAL);
    const three = seen.filter((fiducial) => fiducial.index !== 2);
    const found = lookForMissing(photo.pixels, { toPhoto: homographyOf(three), seen: three, mirrored: false });
    expect(found.map((fiducial) => fiducial.index)).toEqual([2]);
    const covered = photograph({ ...SHOT, covers: [[0, 84, 24, 21]] });
    expect(lookForMissing(covered.pixels, { toPhoto: homographyOf(three), seen: three, mirrored: false })).toEqual([]);
  });
});

function homographyOf(seen: Parameters<typeof pairsOf>[0][]) {
  return fitHomography(seen.flatMap(pairsOf))!;
}
