import { describe, expect, it } from 'vitest';
import type { CloseLook, Corners, Glimpse, SeenCard } from '../../../src/core/capture/glimpse.ts';
import { fillOf, hintFor, isSteady, restMillis, type Sighting, withSighting } from '../../../src/core/capture/hints.ts';

/** A card 440 px wide seen from straight above in a frame of 640 x 480, moved by some millimetres. */
function cardAt(byMm = 0, change: Partial<SeenCard> = {}): SeenCard {
  const pxPerMm = 440 / 148;
  const [x, y] = [100 + byMm * pxPerMm, 80];
  const [w, h] = [440, 105 * pxPerMm];
  const corners: Corners = [
    [x, y],
    [x + w, y],
    [x + w, y + h],
    [x, y + h],
  ];
  return { corners, pxPerMm, tiltDegrees: 5, blurMm: 0.25, ...change };
}

const CLOSE: CloseLook = { light: null, strip: 'found', pads: [], glarePads: [] };

function glimpse(card: SeenCard | null, change: Partial<Glimpse> = {}): Glimpse {
  return { widthPx: 640, heightPx: 480, card, isPartSeen: false, frame: null, close: null, ...change };
}

describe('hints', () => {
  it('says nothing when the photo can be taken', () => {
    expect(hintFor(glimpse(cardAt()), CLOSE, true)).toBeNull();
  });

  it.each([
    ['find-card', glimpse(null)],
    ['find-card', glimpse(null, { frame: 'blurred' })],
    ['whole-card', glimpse(null, { isPartSeen: true })],
    ['more-light', glimpse(null, { frame: 'too-dark', isPartSeen: true })],
    ['less-light', glimpse(null, { frame: 'blown-out' })],
  ] as const)('without a card: %s', (code, seen) => {
    expect(hintFor(seen, null, false)).toBe(code);
  });

  it('asks for the whole card in the frame before anything else about it', () => {
    expect(hintFor(glimpse(cardAt(-34, { tiltDegrees: 50 })), CLOSE, true)).toBe('whole-card');
    expect(hintFor(glimpse(cardAt(-33)), CLOSE, true)).toBeNull();
  });

  it('counts a corner on the frame’s edge as inside, on every side', () => {
    const { corners } = cardAt();
    const moved = (dx: number, dy: number): SeenCard => {
      const [a, b, c, d] = corners.map(([x, y]): [number, number] => [x + dx, y + dy]);
      return cardAt(0, { corners: [a!, b!, c!, d!] });
    };
    const [right, bottom] = corners[2];
    for (const [dx, dy] of [
      [-100, 0],
      [0, -80],
      [640 - right, 0],
      [0, 480 - bottom],
    ] as const) {
      expect(hintFor(glimpse(moved(dx, dy)), CLOSE, true)).toBeNull();
      const [beyondX, beyondY] = [dx + Math.sign(dx), dy + Math.sign(dy)];
      expect(hintFor(glimpse(moved(beyondX, beyondY)), CLOSE, true)).toBe('whole-card');
    }
  });

  it('is content with half the frame, with 30 degrees, and with the blur that its pixels explain', () => {
    // 440 px in 880; hypot(0.6 mm, 0.65 px / (440 / 148 px/mm)) = hypot(0.6, 0.2186) = 0.6386 mm.
    expect(hintFor(glimpse(cardAt(), { widthPx: 880, heightPx: 960 }), CLOSE, true)).toBeNull();
    expect(hintFor(glimpse(cardAt(), { widthPx: 881, heightPx: 960 }), CLOSE, true)).toBe('nearer');
    expect(hintFor(glimpse(cardAt(0, { tiltDegrees: 30 })), CLOSE, true)).toBeNull();
    expect(hintFor(glimpse(cardAt(0, { blurMm: 0.638 })), CLOSE, true)).toBeNull();
    expect(hintFor(glimpse(cardAt(0, { blurMm: 0.639 })), CLOSE, true)).toBe('hold-still');
  });

  it('a held-out, a leaned and a blurred card', () => {
    expect(hintFor(glimpse(cardAt(), { widthPx: 900, heightPx: 700 }), CLOSE, true)).toBe('nearer');
    expect(hintFor(glimpse(cardAt(0, { tiltDegrees: 31 })), CLOSE, true)).toBe('flatter');
    expect(hintFor(glimpse(cardAt(0, { tiltDegrees: 29 })), CLOSE, true)).toBeNull();
    expect(hintFor(glimpse(cardAt(0, { blurMm: 0.9 })), CLOSE, true)).toBe('hold-still');
    expect(hintFor(glimpse(cardAt(0, { blurMm: null })), CLOSE, true)).toBeNull();
  });

  it.each([
    ['more-light', { light: 'too-dark' }],
    ['less-light', { light: 'blown-out' }],
    ['lay-strip', { strip: 'no-strip' }],
    ['check-strip', { strip: 'strip-mismatch' }],
    ['glare', { glarePads: [2] }],
  ] as const)('from a close look: %s', (code, change) => {
    expect(hintFor(glimpse(cardAt()), { ...CLOSE, ...change }, false)).toBe(code);
  });

  it('counts the share of the frame by the tighter side', () => {
    expect(fillOf(glimpse(cardAt()), cardAt())).toBeCloseTo(440 / 640, 6);
    expect(fillOf(glimpse(cardAt(), { widthPx: 1200 }), cardAt())).toBeCloseTo((105 * 440) / 148 / 480, 6);
  });
});

function watch(seconds: number, placeMm: (second: number) => number | null, perSecond = 15): Sighting[] {
  let sightings: Sighting[] = [];
  for (let i = 0; i <= seconds * perSecond; i++) {
    const mm = placeMm(i / perSecond);
    sightings = withSighting(sightings, (i * 1000) / perSecond, mm === null ? null : cardAt(mm));
  }
  return sightings;
}

describe('a steady card', () => {
  it('has rested for half a second', () => {
    expect(isSteady([])).toBe(false);
    expect(isSteady(watch(0.4, () => 0))).toBe(false);
    expect(isSteady(watch(0.6, () => 0))).toBe(true);
    expect(isSteady(watch(30, () => 0))).toBe(true);
  });

  it('needs three sightings, the first of them half a second ago', () => {
    const seenAt = (...millis: number[]) => millis.map((at): Sighting => ({ millis: at, card: cardAt() }));
    expect(isSteady(seenAt(0, 250, 500))).toBe(true);
    expect(isSteady(seenAt(0, 250, 499))).toBe(false);
    expect(isSteady(seenAt(0, 500))).toBe(false);
  });

  it('moves when it turns about one of its corners', () => {
    const card = cardAt();
    const [x0, y0] = card.corners[0];
    // By 0.03 rad: the far end of the 148 mm moves 4.4 mm.
    const [cos, sin] = [Math.cos(0.03), Math.sin(0.03)];
    const [a, b, c, d] = card.corners.map(([x, y]): [number, number] => [
      x0 + cos * (x - x0) - sin * (y - y0),
      y0 + sin * (x - x0) + cos * (y - y0),
    ]);
    const turned = cardAt(0, { corners: [a!, b!, c!, d!] });
    const sightings = [0, 300, 600].map((millis) => ({ millis, card: millis === 0 ? turned : card }));
    expect(isSteady(sightings)).toBe(false);
  });

  it('may tremble as a hand does, but not drift away', () => {
    expect(isSteady(watch(2, (second) => 1.2 * Math.sin(2 * Math.PI * 9 * second)))).toBe(true);
    expect(isSteady(watch(2, (second) => 5 * second))).toBe(true);
    expect(isSteady(watch(2, (second) => 8 * second))).toBe(false);
  });

  it('is told on a slow device as well', () => {
    expect(isSteady(watch(1, () => 0, 1))).toBe(false);
    expect(isSteady(watch(3, () => 0, 1))).toBe(true);
    expect(isSteady(watch(3, (second) => 4 * second, 1))).toBe(false);
  });

  it('lets frames pass while it rests, and none while it moves or was lost', () => {
    expect(restMillis(watch(2, () => 0))).toBeGreaterThan(0);
    expect(restMillis(watch(2, (second) => 20 * second))).toBe(0);
    expect(restMillis(watch(2, (second) => (second > 1.9 ? null : 0)))).toBe(0);
  });

  it('is waited for anew once it was lost', () => {
    expect(isSteady(watch(2, (second) => (second > 1.5 && second < 1.6 ? null : 0)))).toBe(false);
  });

  it('keeps no more than it needs', () => {
    const old = { millis: 0, card: cardAt() };
    expect(withSighting([old], 100, null)).toEqual([]);
    expect(withSighting([old], 3999, cardAt())).toHaveLength(2);
    expect(withSighting([old], 4000, cardAt())).toHaveLength(1);
    expect(watch(60, () => 0).length).toBeLessThanOrEqual(61);
  });
});
