import { describe, expect, it } from 'vitest';
import { NEUTRALS } from '../../../src/core/card/geometry.ts';
import { encodeSrgb, type Triple } from '../../../src/core/colour/lab.ts';
import { judgeLight, mixedPercent, shadowEdge } from '../../../src/core/reading/judge-light.ts';
import type { CardSamples } from '../../../src/core/samples.ts';
import { encoded, evenCard, inkOf, PLAIN, withInks } from './samples.ts';

describe('the light', () => {
  /** The slot's 21 spots from the left: so many darker by some L*. */
  const shaded = (spots: number, by: number): CardSamples => {
    const card = evenCard();
    const slot = card.slot.map((one, i) => ({ ...one, rgb: encoded([i < spots ? 70 - by : 70, 0, 0]) }));
    return { ...card, slot };
  };

  it('says nothing where it is even', () => {
    expect(judgeLight(evenCard(), PLAIN)).toEqual({ objections: [], doubts: [] });
  });

  it('has a shadow’s edge beyond 4 L* over the slot, around its dark part', () => {
    expect(judgeLight(shaded(10, 3.9), PLAIN).doubts).toEqual([]);
    const { objections, doubts } = judgeLight(shaded(10, 4.2), PLAIN);
    expect(objections).toEqual([]);
    expect(doubts).toHaveLength(1);
    expect(doubts[0]).toMatchObject({ code: 'shadow-edge', parameter: null });
    // A pad's colour may be off by 0.15 of it.
    expect(doubts[0]!.sigma).toBeCloseTo(0.15 * 4.2, 6);
    // Spots from 24 to 69 mm, 7 mm further on each side; 52 mm, 2 mm further.
    expect(doubts[0]!.outline).toEqual([
      [17, 50],
      [76, 50],
      [76, 54],
      [17, 54],
    ]);
  });

  it('refuses beyond 12 L*', () => {
    expect(judgeLight(shaded(10, 11.9), PLAIN).objections).toEqual([]);
    const { objections, doubts } = judgeLight(shaded(10, 12.1), PLAIN);
    expect(objections).toHaveLength(1);
    expect(objections[0]).toMatchObject({ code: 'deep-shadow', parameter: null });
    expect(objections[0]!.outline![0]).toEqual([17, 50]);
    expect(doubts).toEqual([]);
  });

  it('doesn’t take a single spot of 21 for an edge, and keeps the outline in the slot', () => {
    // The 5th and the 95th percentile of 21 are the second and the twentieth.
    expect(shadowEdge(shaded(1, 20), PLAIN).spread).toBeCloseTo(0, 6);
    expect(shadowEdge(shaded(20, 20), PLAIN).spread).toBeCloseTo(0, 6);
    expect(shadowEdge(shaded(2, 20), PLAIN).spread).toBeCloseTo(20, 6);
    // In whatever order they stand: the dark ones in the middle.
    const whole = shaded(10, 20);
    const slot21 = [...whole.slot.slice(15), ...whole.slot.slice(0, 15)];
    expect(shadowEdge({ ...whole, slot: slot21 }, PLAIN).spread).toBeCloseTo(20, 6);
    const card = shaded(10, 20);
    const corners = [
      { xMm: 17, yMm: 44 },
      { xMm: 131, yMm: 61 },
    ];
    const slot = card.slot.map((one, i) => ({ ...one, ...(i < 10 ? corners[i % 2]! : {}) }));
    expect(shadowEdge({ ...card, slot }, PLAIN).outline).toEqual([
      [16, 43.5],
      [132, 43.5],
      [132, 61.5],
      [16, 61.5],
    ]);
  });

  it('is uneven beyond 40 % over the slot, unless an edge says so already', () => {
    const uneven = { code: 'uneven-light', sigma: 0, parameter: null, outline: null };
    expect(judgeLight(evenCard(), { ...PLAIN, shadingPercent: 40 }).doubts).toEqual([]);
    expect(judgeLight(evenCard(), { ...PLAIN, shadingPercent: 41 }).doubts).toEqual([uneven]);
    const both = judgeLight(shaded(10, 6), { ...PLAIN, shadingPercent: 41 });
    expect(both.doubts.map(({ code }) => code)).toEqual(['shadow-edge']);
  });

  /** One of the two neutrals of an ink under a light so much redder, per cent. */
  const redder = (ink: number, percent: number, channel: 0 | 2 = 0): CardSamples => {
    const first = NEUTRALS.find((one) => one.ink === ink)!.id;
    const linear = 0.3;
    return withInks([ink], ({ id }) => {
      const rgb = [0, 1, 2].map((c) =>
        encodeSrgb(id === first && c === channel ? linear * Math.exp(percent / 100) : linear),
      );
      return { rgb: rgb as unknown as Triple };
    });
  };

  it.each([
    [0.15, 0],
    [0.42, 0],
    [0.42, 2],
  ] as const)('is mixed where two greys of ink %d differ in channel %d', (ink, channel) => {
    expect(mixedPercent(redder(ink, 30, channel))).toBeCloseTo(30, 6);
    expect(mixedPercent(redder(ink, -30, channel))).toBeCloseTo(30, 6);
  });

  it('isn’t told by dark greys, by clipped ones, or by greys of different inks', () => {
    expect(mixedPercent(redder(0.55, 60))).toBeCloseTo(0, 6);
    expect(mixedPercent(evenCard())).toBeCloseTo(0, 6);
    const card = redder(0.3, 60);
    const clipped = (share: number) => ({
      ...card,
      neutrals: card.neutrals.map((one) => ({ ...one, clipped: inkOf.get(one.id) === 0.3 ? share : 0 })),
    });
    expect(mixedPercent(clipped(0.02))).toBeCloseTo(0, 6);
    expect(mixedPercent(clipped(0.019))).toBeCloseTo(60, 6);
  });

  it('counts paper together with the bare neutrals', () => {
    const card = evenCard();
    const [first, ...others] = card.paper;
    const blue: Triple = [encodeSrgb(0.5), encodeSrgb(0.5), encodeSrgb(0.5 * Math.exp(0.2))];
    expect(mixedPercent({ ...card, paper: [{ ...first!, rgb: blue }, ...others] })).toBeCloseTo(20, 6);
    expect(mixedPercent({ ...card, paper: [{ ...first!, rgb: blue }] })).toBeCloseTo(20, 6);
  });

  it('asks for a word beyond 40 %, and refuses beyond 100 %', () => {
    expect(judgeLight(redder(0.3, 39), PLAIN).doubts).toEqual([]);
    const { doubts } = judgeLight(redder(0.3, 50), PLAIN);
    expect(doubts).toHaveLength(1);
    expect(doubts[0]).toMatchObject({ code: 'mixed-light', parameter: null, outline: null });
    // 0.02 a per cent.
    expect(doubts[0]!.sigma).toBeCloseTo(1, 6);
    expect(judgeLight(redder(0.3, 99), PLAIN).objections).toEqual([]);
    expect(judgeLight(redder(0.3, 101), PLAIN)).toEqual({
      objections: [{ code: 'two-lights', parameter: null, outline: null }],
      doubts: [],
    });
  });

  it('tells of greys that fit badly only where nothing else explains it', () => {
    expect(judgeLight(evenCard(), { ...PLAIN, residual: 3 }).doubts).toEqual([]);
    expect(judgeLight(evenCard(), { ...PLAIN, residual: 3.1 }).doubts).toEqual([
      { code: 'poor-fit', sigma: 0, parameter: null, outline: null },
    ]);
    const explained = judgeLight(redder(0.3, 50), { ...PLAIN, residual: 3.1 });
    expect(explained.doubts.map(({ code }) => code)).toEqual(['mixed-light']);
  });
});
