import { describe, expect, it } from 'vitest';
import { FLAT_PX_PER_MM, flatten } from '../../src/vision/flatten.ts';
import type { Pixels } from '../../src/vision/pixels.ts';
import { flatCard, photograph, type Shot } from './pictures.ts';

const FLAT = flatCard();

const SHOT: Shot = {
  seed: 2,
  width: 2000,
  height: 1500,
  fill: 0.95,
  turnDegrees: 8,
  tiltDegrees: 15,
  tiltAxisDegrees: 30,
};

/** Differences of all channels of every so many pixels. */
function mostDifferent(one: Pixels, other: Pixels, every = 1): { mean: number; most: number } {
  let [sum, most, n] = [0, 0, 0];
  for (let i = 0; i < one.data.length; i += 4 * every) {
    for (let c = 0; c < 3; c++) {
      const off = Math.abs(one.data[i + c]! - other.data[i + c]!);
      sum += off;
      most = Math.max(most, off);
      n++;
    }
  }
  return { mean: sum / n, most };
}

describe('flattening', () => {
  it('changes nothing on a card that is flat already', () => {
    const flat = flatten(FLAT, {
      toPhoto: (x, y) => [x * FLAT_PX_PER_MM, y * FLAT_PX_PER_MM],
      pxPerMm: FLAT_PX_PER_MM,
    });
    expect([flat.width, flat.height]).toEqual([1480, 1050]);
    expect(mostDifferent(flat, FLAT).most).toBe(0);
  });

  it('turns a card upside down and mirrored back', () => {
    const { data, width, height } = FLAT;
    const turned = new Uint8ClampedArray(data.length);
    for (let y = 0; y < height; y++) {
      for (let x = 0; x < width; x++) {
        const from = (y * width + x) * 4;
        turned.set(data.subarray(from, from + 4), ((height - 1 - y) * width + x) * 4);
      }
    }
    const view = { toPhoto: (x: number, y: number) => [x * 10, height - y * 10] as const, pxPerMm: 10 };
    expect(mostDifferent(flatten({ data: turned, width, height }, view), FLAT).most).toBe(0);
  });

  it('gives the same where only parts are wanted, and leaves the rest', () => {
    const view = { toPhoto: (x: number, y: number) => [x * 8 + 3.3, y * 8 + 1.7] as const, pxPerMm: 8 };
    const wanted = { xMm: 20.4, yMm: 30, widthMm: 15, heightMm: 7.2 };
    const whole = flatten(FLAT, view);
    const part = flatten(FLAT, view, [wanted]);
    const pixel = ({ data, width }: Pixels, x: number, y: number) => [
      ...data.subarray((y * width + x) * 4).slice(0, 4),
    ];
    for (let y = 300; y < 372; y++) {
      for (let x = 204; x < 354; x++) expect(pixel(part, x, y)).toEqual(pixel(whole, x, y));
    }
    expect(pixel(part, 100, 330)).toEqual([0, 0, 0, 0]);
    expect(pixel(part, 250, 500)).toEqual([0, 0, 0, 0]);
  });

  it('averages the pixels of the photo where it has more of them', () => {
    for (const times of [2, 3]) {
      const view = {
        toPhoto: (x: number, y: number) => [x * 10 * times, y * 10 * times] as const,
        pxPerMm: 10 * times,
      };
      expect(mostDifferent(flatten(enlarged(FLAT, times), view), FLAT).most).toBe(0);
    }
  });

  it('gives the printed card back from a photo, whether it has more pixels than the flat picture or fewer', () => {
    for (const [width, height] of [
      [1000, 750],
      [2500, 1875],
    ] as const) {
      const photo = photograph({ ...SHOT, width, height });
      const flat = flatten(photo.pixels, { toPhoto: photo.toPhoto, pxPerMm: (0.93 * width) / 148 });
      // Edges differ by how sharp they are; patches don't differ.
      expect(mostDifferent(flat, FLAT, 7).mean).toBeLessThan(3);
      for (const [xMm, yMm] of [
        [37, 31],
        [95, 31],
        [26, 10],
        [121, 94],
        [74, 52],
      ] as const) {
        const at = (yMm * 10 * 1480 + xMm * 10) * 4;
        for (let c = 0; c < 3; c++) expect(Math.abs(flat.data[at + c]! - FLAT.data[at + c]!)).toBeLessThanOrEqual(1);
      }
    }
  });

  it('puts edges where they are to a twentieth of a millimetre', () => {
    const photo = photograph({ ...SHOT, width: 1600, height: 1200 });
    const flat = flatten(photo.pixels, { toPhoto: photo.toPhoto, pxPerMm: 10 });
    // Left edge of the top left fiducial, x = 3 mm, and its top edge.
    const level = (x: number, y: number) => flat.data[(y * 1480 + x) * 4 + 1]!;
    for (let k = 60; k < 150; k += 15) {
      expect(Math.abs(edgeAt((i) => level(20 + i, k), 20) - 10)).toBeLessThan(0.5);
      expect(Math.abs(edgeAt((i) => level(k, 20 + i), 20) - 10)).toBeLessThan(0.5);
    }
  });

  it('repeats the border where the card leaves the photo', () => {
    const flat = flatten(FLAT, { toPhoto: (x, y) => [x * 10 - 600, y * 10], pxPerMm: 10 });
    for (let x = 0; x < 590; x += 40) {
      const at = (200 * 1480 + x) * 4;
      expect([...flat.data.subarray(at, at + 4)]).toEqual([...FLAT.data.subarray(200 * 5920, 200 * 5920 + 4)]);
    }
  });
});

/** Place of the step from bright to dark in a run of levels, by its area. */
function edgeAt(level: (i: number) => number, length: number): number {
  const values = Array.from({ length }, (_, i) => level(i));
  const [bright, dark] = [values[0]!, values.at(-1)!];
  return values.reduce((sum, value) => sum + (value - dark) / (bright - dark), 0);
}

/** Each pixel turned into a block: bright in one corner, dark in another, the same on average. */
function enlarged({ data, width, height }: Pixels, times: number): Pixels {
  const large = new Uint8ClampedArray(data.length * times * times);
  for (let y = 0; y < height * times; y++) {
    for (let x = 0; x < width * times; x++) {
      const from = (Math.floor(y / times) * width + Math.floor(x / times)) * 4;
      const sign = x % times === 0 && y % times === 0 ? 1 : x % times === 1 && y % times === 1 ? -1 : 0;
      const to = (y * width * times + x) * 4;
      for (let c = 0; c < 3; c++) {
        const level = data[from + c]!;
        large[to + c] = level + sign * Math.min(9, level, 255 - level);
      }
      large[to + 3] = 255;
    }
  }
  return { data: large, width: width * times, height: height * times };
}
