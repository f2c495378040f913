import { describe, expect, it } from 'vitest';
import type { CloseLook, Corners, Glimpse, SeenCard } from '../../../src/core/capture/glimpse.ts';
import { fillOf, hintFor, isSteady, type Sighting, withSighting } from '../../../src/core/capture/hints.ts';

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

  it('may tremble like a hand, but not wander', () => {
    expect(isSteady(watch(2, (second) => 1.2 * Math.sin(2 * Math.PI * 9 * second)))).toBe(true);
    expect(isSteady(watch(2, (second) => 5 * second))).toBe(true);
    expect(isSteady(watch(2, (second) => 8 * second))).toBe(false);
  });

  it('is told on a slow device as well', () => {
    expect(isSteady(watch(1, () => 0, 1))).toBe(false);
    expect(isSteady(watch(3, () => 0, 1))).toBe(true);
    expect(isSteady(watch(3, (second) => 4 * second, 1))).toBe(false);
  });

  it('is waited for anew once it was lost', () => {
    expect(isSteady(watch(2, (second) => (second > 1.5 && second < 1.6 ? null : 0)))).toBe(false);
  });

  it('keeps no more than it needs', () => {
    expect(watch(60, () => 0).length).toBeLessThanOrEqual(61);
  });
});
