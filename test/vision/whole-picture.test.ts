import { describe, expect, it } from 'vitest';
import type { Pixels } from '../../src/vision/pixels.ts';
import { whyNothingFound } from '../../src/vision/whole-picture.ts';

function picture(level: (x: number, y: number) => number): Pixels {
  const [width, height] = [1600, 1200];
  const data = new Uint8ClampedArray(width * height * 4).fill(255);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) data.fill(level(x, y), (y * width + x) * 4, (y * width + x) * 4 + 3);
  }
  return { data, width, height };
}

/** A chessboard of 100 px whose edges are blurred over so many pixels. */
const board = (blurPx: number, dark: number, light: number) => (x: number, y: number) => {
  const wave = (at: number) => Math.min(1, Math.max(-1, Math.sin((Math.PI * at) / 100) * (100 / Math.PI / blurPx)));
  return dark + ((light - dark) * (1 + wave(x) * wave(y))) / 2;
};

describe('a picture without a card', () => {
  it('is not to blame when it is sharp and well lit', () => {
    expect(whyNothingFound(picture(board(2, 30, 220)))).toBeNull();
  });

  it('may be blurred', () => {
    expect(whyNothingFound(picture(board(30, 30, 220)))).toBe('blurred');
  });

  it('may be too dark', () => {
    expect(whyNothingFound(picture(board(2, 3, 30)))).toBe('too-dark');
  });

  it('may be blown out', () => {
    expect(whyNothingFound(picture(board(2, 120, 255)))).toBe('blown-out');
  });

  it('of one even tone is simply without a card', () => {
    expect(whyNothingFound(picture(() => 128))).toBeNull();
  });
});
