import { describe, expect, test } from 'vitest';
import type { View } from './types.ts';
import { CARD_CORNERS, project, truthOf } from './view.ts';

const straight: View = {
  cardFill: 0.6,
  tiltDegrees: 0,
  tiltTowardsDegrees: 0,
  rollDegrees: 0,
  offset: [0, 0],
  focal: 0.73,
  bend: 0,
};
const at = (view: View) => project(view, 1600, 1200);
const length = (a: readonly [number, number], b: readonly [number, number]) => Math.hypot(a[0] - b[0], a[1] - b[1]);

describe('project', () => {
  test('from straight above the card is a plain enlargement', () => {
    const corners = CARD_CORNERS.map(([x, y]) => at(straight).toPicture(x, y));
    expect(corners[0]![0]).toBeCloseTo(800 - 480, 3);
    expect(corners[1]![0]).toBeCloseTo(800 + 480, 3);
    expect(corners[0]![1]).toBeCloseTo(600 - (480 * 105) / 148, 3);
  });

  test('there and back again, bent lens and all', () => {
    const projection = at({ ...straight, tiltDegrees: 33, tiltTowardsDegrees: 70, rollDegrees: 131, bend: 0.02 });
    const place = new Float64Array(2);
    for (const [x, y] of [...CARD_CORNERS, [74, 52.5], [10, 90]] as const) {
      const [u, v] = projection.toPicture(x, y);
      expect(projection.toPlane(u, v, place)).toBe(true);
      expect(place[0]).toBeCloseTo(x, 5);
      expect(place[1]).toBeCloseTo(y, 5);
    }
  });

  test('fills the share of the picture it was asked to', () => {
    const view = { ...straight, tiltDegrees: 25, tiltTowardsDegrees: 200, rollDegrees: 90, cardFill: 0.8 };
    const { card } = truthOf(at(view));
    const span = (k: 0 | 1) => Math.max(...card.map((p) => p[k])) - Math.min(...card.map((p) => p[k]));
    expect(Math.max(span(0) / 1600, span(1) / 1200)).toBeCloseTo(0.8, 3);
  });

  test('the side tilted away is the smaller', () => {
    const { card } = truthOf(at({ ...straight, tiltDegrees: 30, tiltTowardsDegrees: 0 }));
    const [topLeft, topRight, bottomRight, bottomLeft] = card as [never, never, never, never];
    expect(length(topRight, bottomRight)).toBeLessThan(0.85 * length(topLeft, bottomLeft));
  });

  test('a quarter turn clockwise puts the top left corner to the top right, never mirrored', () => {
    const { card } = truthOf(at({ ...straight, rollDegrees: 90 }));
    expect(card[0]![0]).toBeGreaterThan(800);
    expect(card[0]![1]).toBeLessThan(600);
    for (const view of [straight, { ...straight, rollDegrees: 200, tiltDegrees: 35, tiltTowardsDegrees: 120 }]) {
      const [a, b, , d] = truthOf(at(view)).card as [Point, Point, Point, Point];
      expect((b[0] - a[0]) * (d[1] - a[1]) - (b[1] - a[1]) * (d[0] - a[0])).toBeGreaterThan(0);
    }
  });

  test('rays above the horizon meet no card', () => {
    const steep = at({ ...straight, tiltDegrees: 80, tiltTowardsDegrees: 270, cardFill: 0.5 });
    expect(steep.toPlane(800, 0, new Float64Array(2))).toBe(false);
  });
});

type Point = readonly [number, number];
