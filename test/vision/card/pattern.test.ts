import { describe, expect, it } from 'vitest';
import { isOnScreen } from '../../../src/vision/card/pattern.ts';
import { photograph } from '../pictures.ts';
import { planesFrom } from '../planes.ts';

const photo = photograph({
  seed: 5,
  width: 1024,
  height: 768,
  fill: 0.9,
  turnDegrees: 8,
  tiltDegrees: 10,
  tiltAxisDegrees: 30,
  blurPx: 0.6,
  noise: 3,
});

const ALIKE = [1, 1, 1] as const;
/** Red and blue stripes a third of a pitch either side of green, seen by a lens that keeps their sum even. */
const COLOURED = [1, 0, -1] as const;

/** The photo with rows of pixels of a screen laid over it, as strong as told. */
function withRows(levels: number, pitchPx: number, colours: readonly number[] = ALIKE) {
  const { width, height } = photo.pixels;
  const data = photo.pixels.data.slice();
  for (let at = 0; at < data.length; at++) {
    if (at % 4 === 3) continue;
    const [x, y] = [(at >> 2) % width, Math.floor(at / 4 / width)];
    data[at] = data[at]! + levels * colours[at % 4]! * Math.cos((2 * Math.PI * (x * 0.98 + y * 0.2)) / pitchPx);
  }
  return { data, width, height };
}

describe('a card on a screen', () => {
  it('is told by the rows of its pixels on bare paper', () => {
    for (const pitchPx of [2.3, 3.4, 6.1]) expect(isOnScreen(withRows(4, pitchPx), photo.toPhoto)).toBe(true);
  });

  it('is told by stripes of colour that leave brightness alone, in planes as in pixels', () => {
    const striped = withRows(3, 9.3, COLOURED);
    expect(isOnScreen(striped, photo.toPhoto)).toBe(true);
    expect(isOnScreen(planesFrom(striped), photo.toPhoto)).toBe(true);
    expect(isOnScreen(planesFrom(photo.pixels), photo.toPhoto)).toBe(false);
    expect(isOnScreen(withRows(0.9, 9.3, COLOURED), photo.toPhoto)).toBe(false);
  });

  it('is not suspected in paper with noise, nor in rows too faint to be a screen’s', () => {
    expect(isOnScreen(photo.pixels, photo.toPhoto)).toBe(false);
    expect(isOnScreen(withRows(1, 3.4), photo.toPhoto)).toBe(false);
  });
});
