import { describe, expect, it } from 'vitest';
import { randomScene } from '../random-scene.ts';
import { PRACTICE_FOUR } from '../strips/strips.ts';
import { sheetOf } from './sheet.ts';
import type { SheetShape } from './types.ts';
import type { Projection } from './view.ts';

const { light } = randomScene(1, 'everyday', PRACTICE_FOUR);
/** So far above the card's middle that every ray falls straight down. */
const above = { eye: [74, 52.5, 1e7] } as unknown as Projection;

function placeSeen(shape: SheetShape, xMm: number, yMm: number): Float64Array {
  const into = new Float64Array(3);
  expect(sheetOf(shape, above, light).at(xMm, yMm, into)).toBe(true);
  return into;
}

describe('a sheet that isn’t flat, seen straight from above', () => {
  // By trigonometry: a half that slopes by 15 degrees looks shorter by the cosine.
  it.each([30, -30])('shows a half folded by %d degrees in all shorter by the cosine of half of it', (foldDegrees) => {
    const [x, y] = placeSeen({ kind: 'fold', acrossDegrees: 0, atMm: 0, foldDegrees }, 74 + 40, 20);
    expect(x).toBeCloseTo(74 + 40 / Math.cos((15 * Math.PI) / 180), 3);
    expect(y).toBeCloseTo(20, 3);
  });

  // By trigonometry: a place at height-free distance a of a circle of radius r lies r asin(a / r) along it.
  it.each([6, -6])('shows a roll of %d mm along its arc', (riseMm) => {
    const radius = (74 * 74) / 12;
    const [x] = placeSeen({ kind: 'curl', acrossDegrees: 0, riseMm }, 74 - 60, 80);
    expect(x).toBeCloseTo(74 - radius * Math.asin(60 / radius), 3);
  });

  it('gets less light from the whole sky where it slopes', () => {
    const overcast = { ...light, softness: 0 };
    const into = new Float64Array(3);
    sheetOf({ kind: 'fold', acrossDegrees: 0, atMm: 0, foldDegrees: 60 }, above, overcast).at(100, 50, into);
    expect(into[2]).toBeCloseTo((1 + Math.cos(Math.PI / 6)) / 2, 6);
  });
});
