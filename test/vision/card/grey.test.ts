import { describe, expect, it } from 'vitest';
import { brightnessAt, shrinkFactor, shrinkToGrey } from '../../../src/vision/card/grey.ts';
import type { Pixels } from '../../../src/vision/pixels.ts';
import { randomFrom } from '../pictures.ts';

function picture(width: number, height: number, colour: (x: number, y: number) => readonly number[]): Pixels {
  const data = new Uint8ClampedArray(width * height * 4);
  for (let i = 0; i < width * height; i++) data.set([...colour(i % width, Math.floor(i / width)), 255], i * 4);
  return { data, width, height };
}

describe('shrinking', () => {
  it.each([2, 3])('averages whole blocks of %i by as many pixels, green twice', (factor) => {
    const random = randomFrom(7);
    const photo = picture(13, 10, () => [random(), random(), random()].map((value) => Math.floor(256 * value)));
    const grey = shrinkToGrey(photo, factor);
    const [width, height] = [Math.floor(13 / factor), Math.floor(10 / factor)];
    expect([grey.width, grey.height, grey.factor]).toEqual([width, height, factor]);
    for (let y = 0; y < height; y++) {
      for (let x = 0; x < width; x++) {
        let sum = 0;
        for (let i = 0; i < factor * factor; i++) {
          const at = ((factor * y + Math.floor(i / factor)) * 13 + factor * x + (i % factor)) * 4;
          sum += (photo.data[at]! + 2 * photo.data[at + 1]! + photo.data[at + 2]!) / 4;
        }
        expect(Math.abs(grey.data[y * width + x]! - sum / factor ** 2)).toBeLessThanOrEqual(0.5);
      }
    }
  });

  it('keeps white white and black black at every factor', () => {
    for (const level of [0, 255]) {
      const photo = picture(64, 48, () => [level, level, level]);
      for (let factor = 1; factor <= 12; factor++) {
        expect(new Set(shrinkToGrey(photo, factor).data)).toEqual(new Set([level]));
      }
    }
  });

  it('takes pixels that start anywhere in memory', () => {
    const photo = picture(8, 8, (x) => [10 * x, 10 * x, 10 * x]);
    const shifted = new Uint8ClampedArray(8 * 8 * 4 + 1);
    shifted.set(photo.data, 1);
    expect(shrinkToGrey({ ...photo, data: shifted.subarray(1) }, 2).data).toEqual(shrinkToGrey(photo, 2).data);
  });

  it('chooses the whole factor that comes nearest', () => {
    expect(shrinkFactor({ data: new Uint8ClampedArray(), width: 3000, height: 4000 }, 800)).toBe(5);
    expect(shrinkFactor({ data: new Uint8ClampedArray(), width: 640, height: 480 }, 800)).toBe(1);
  });
});

describe('brightness of a place', () => {
  const ramp = picture(20, 10, (x, y) => [2 * x + 5 * y, 2 * x + 5 * y, 2 * x + 5 * y]);

  it('is the pixel’s own at its centre and in proportion between', () => {
    expect(brightnessAt(ramp, 4.5, 3.5)).toBeCloseTo(23);
    expect(brightnessAt(ramp, 5, 4)).toBeCloseTo(26.5);
  });

  it('repeats the border outside', () => {
    expect(brightnessAt(ramp, -50, 0.5)).toBeCloseTo(0);
    expect(brightnessAt(ramp, 500, 500)).toBeCloseTo(83, 1);
  });
});
