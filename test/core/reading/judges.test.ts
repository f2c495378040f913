import { describe, expect, it } from 'vitest';
import { NEUTRALS, SLOT } from '../../../src/core/card/geometry.ts';
import { encodeSrgb, linearToLab, type Triple } from '../../../src/core/colour/lab.ts';
import type { TintedGrey } from '../../../src/core/colour/neutrals.ts';
import { judgeColour, vividness } from '../../../src/core/reading/judge-colour.ts';
import { judgeGreys } from '../../../src/core/reading/judge-greys.ts';
import { judgeLight, mixedPercent, shadowEdge } from '../../../src/core/reading/judge-light.ts';
import { judgeExposure } from '../../../src/core/reading/judge.ts';
import type { CardSamples, PatchSample } from '../../../src/core/samples.ts';
import { encoded, evenCard, grey, pad, patch, PLAIN } from './samples.ts';

const inkOf = new Map(NEUTRALS.map(({ id, ink }) => [id, ink]));

/** The card with its neutrals of some inks changed. */
function withInks(inks: readonly number[], change: (sample: PatchSample) => Partial<PatchSample>): CardSamples {
  const card = evenCard();
  const neutrals = card.neutrals.map((one) => (inks.includes(inkOf.get(one.id)!) ? { ...one, ...change(one) } : one));
  return { ...card, neutrals };
}

describe('exposure', () => {
  it('is fine on a card evenly lit', () => {
    expect(judgeExposure(evenCard())).toBeNull();
  });

  it('is too dark where the paper stays below 0.3 of the encoded range', () => {
    const atLevel = (level: number): CardSamples => {
      const white: Triple = [level, level, level];
      const card = evenCard();
      const dark = card.neutrals.map((one) => ({ ...one, rgb: inkOf.get(one.id) === 0 ? white : grey(0.001) }));
      return { ...card, neutrals: dark, paper: card.paper.map((one) => ({ ...one, rgb: white })) };
    };
    expect(judgeExposure(atLevel(0.299))).toBe('too-dark');
    expect(judgeExposure(atLevel(0.301))).toBeNull();
  });

  it('counts the mean of the channels, over paper and bare neutrals', () => {
    const card = evenCard();
    const paper = (rgb: Triple) => ({ ...card, paper: card.paper.map((one) => ({ ...one, rgb })) });
    const bare = (rgb: Triple, base: CardSamples): CardSamples => ({
      ...base,
      neutrals: base.neutrals.map((one) => ({ ...one, rgb: inkOf.get(one.id) === 0 ? rgb : grey(0.001) })),
    });
    // 0.1 + 0.6 + 0.17 = 3 * 0.29; 0.1 + 0.6 + 0.23 = 3 * 0.31.
    expect(judgeExposure(bare([0.1, 0.6, 0.17], paper([0.1, 0.6, 0.17])))).toBe('too-dark');
    expect(judgeExposure(bare([0.1, 0.6, 0.23], paper([0.1, 0.6, 0.23])))).toBeNull();
    // Six patches of paper at 0.2 and two bare neutrals at 0.7: 2.6 / 8 = 0.325.
    expect(judgeExposure(bare([0.7, 0.7, 0.7], paper([0.2, 0.2, 0.2])))).toBeNull();
  });

  it('is too much where the lightest print is clipped over a quarter, but not where only paper is', () => {
    const clipped = (share: number) => withInks([0.15], () => ({ clipped: share }));
    expect(judgeExposure(clipped(0.26))).toBe('blown-out');
    expect(judgeExposure(clipped(0.25))).toBeNull();
    expect(judgeExposure(withInks([0], () => ({ clipped: 1 })))).toBeNull();
  });

  it('needs 2.5 times the light from paper that it has from solid black', () => {
    const black = (linear: number) => withInks([1], () => ({ rgb: grey(linear) }));
    // 0.86 / 2.5 = 0.344.
    expect(judgeExposure(black(0.343))).toBeNull();
    expect(judgeExposure(black(0.345))).toBe('blown-out');
  });
});

describe('the greys', () => {
  const tinted: TintedGrey[] = [
    { id: 'nt3', chroma: 5 },
    { id: 's1', chroma: 4 },
    { id: 's2', chroma: 4 },
  ];
  const [nt3] = NEUTRALS.filter(({ id }) => id === 'nt3');
  const around = ({ xMm, yMm, widthMm, heightMm }: typeof SLOT) => [
    [xMm, yMm],
    [xMm + widthMm, yMm],
    [xMm + widthMm, yMm + heightMm],
    [xMm, yMm + heightMm],
  ];

  it('say nothing where they are grey', () => {
    expect(judgeGreys(evenCard(), PLAIN, false)).toEqual({ objections: [], doubts: [] });
    expect(judgeGreys(evenCard(), { ...PLAIN, castResidual: 1.5, tinted }, false)).toEqual({
      objections: [],
      doubts: [],
    });
  });

  it('are named by their places where they are not, the slot once', () => {
    const { objections, doubts } = judgeGreys(evenCard(), { ...PLAIN, castResidual: 1.6, tinted }, false);
    expect(objections).toEqual([]);
    expect(doubts).toEqual(
      [nt3!, SLOT].map((grey) => ({
        code: 'greys-not-neutral',
        sigma: 0,
        parameter: null,
        outline: around(grey),
      })),
    );
    const nowhere = judgeGreys(evenCard(), { ...PLAIN, castResidual: 1.6 }, false);
    expect(nowhere.doubts).toEqual([{ code: 'greys-not-neutral', sigma: 0, parameter: null, outline: null }]);
  });

  it('refuse the photo beyond 8 from grey', () => {
    expect(judgeGreys(evenCard(), { ...PLAIN, castResidual: 8, tinted }, false).objections).toEqual([]);
    const { objections, doubts } = judgeGreys(evenCard(), { ...PLAIN, castResidual: 8.1, tinted }, true);
    expect(objections).toEqual(
      [nt3!, SLOT].map((grey) => ({ code: 'greys-mixed', parameter: null, outline: around(grey) })),
    );
    expect(doubts).toEqual([]);
  });

  it('tell of a card without colours, and of another print', () => {
    const codes = (variant: 'colour' | 'black', another: boolean) =>
      judgeGreys(evenCard({ variant }), PLAIN, another).doubts.map(({ code, sigma }) => [code, sigma]);
    expect(codes('black', false)).toEqual([['black-only-card', 0]]);
    expect(codes('colour', true)).toEqual([['another-print', 0]]);
  });
});

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

describe('the picture’s colours', () => {
  const strip = (chroma: number) => ({
    base: [],
    pads: [pad('ph', [70, 0, 0]), pad('salt', [70, 0.6 * chroma, 0.8 * chroma])],
    reversed: false,
  });
  /** The colour patches with their CIELAB chroma multiplied, their hues and lightness kept. */
  const coloured = (times: number, count = Infinity): CardSamples => {
    const card = evenCard();
    const anchors = card.anchors.slice(0, count).map((one) => {
      const [l, a, b] = linearToLab(PLAIN.toLinear(one.rgb, 0, 0));
      return { ...one, rgb: encoded([l, times * a, times * b]) };
    });
    return { ...card, anchors };
  };

  it('are as vivid as they were sent to the printer, or without any', () => {
    expect(vividness(evenCard(), PLAIN)).toBeCloseTo(1, 6);
    expect(vividness(coloured(0), PLAIN)).toBeCloseTo(0, 6);
    expect(vividness(coloured(0.5), PLAIN)).toBeCloseTo(0.5, 6);
    expect(vividness(coloured(-1), PLAIN)).toBeCloseTo(-1, 6);
  });

  it('are told by six patches or more that aren’t clipped, and by the middle one', () => {
    expect(vividness(coloured(1, 5), PLAIN)).toBeNull();
    expect(vividness(coloured(1, 6), PLAIN)).toBeCloseTo(1, 6);
    const clipped = (share: number) => {
      const card = coloured(1, 6);
      return { ...card, anchors: card.anchors.map((one, i) => ({ ...one, clipped: i === 0 ? share : 0 })) };
    };
    expect(vividness(clipped(0.11), PLAIN)).toBeNull();
    expect(vividness(clipped(0.1), PLAIN)).toBeCloseTo(1, 6);
    // In whatever order they stand.
    const mixed = [3, 0.1, 2, 0.2, 1, 0.3, 4].map((times, i) => coloured(times).anchors[i]!);
    expect(vividness({ ...evenCard(), anchors: mixed }, PLAIN)).toBeCloseTo(1, 6);
    // Eight of eighteen without colour leave the median at one; patches of no known name say nothing.
    const card = evenCard();
    const pale = card.anchors.map((one, i) => (i < 8 ? { ...one, rgb: grey(0.5) } : one));
    expect(vividness({ ...card, anchors: [...pale, patch('a?', grey(0.5))] }, PLAIN)).toBeCloseTo(1, 6);
  });

  it.each([
    [0, 'no-colour', null],
    [0.34, 'no-colour', null],
    [0.36, null, 'colour-filter'],
    [0.57, null, 'colour-filter'],
    [0.59, null, null],
    [1.44, null, null],
    [1.46, null, 'colour-filter'],
  ] as const)('%d of the colour: refused for %j, doubted for %j', (times, objection, doubt) => {
    const { objections, doubts } = judgeColour(coloured(times), strip(0), PLAIN);
    expect(objections).toEqual(objection ? [{ code: objection, parameter: null, outline: null }] : []);
    expect(doubts).toEqual(doubt ? [{ code: doubt, sigma: 2, parameter: null, outline: null }] : []);
  });

  it('are told by the pads where the card has no colours', () => {
    const black = evenCard({ anchors: [] });
    const codes = (chroma: number) => judgeColour(black, strip(chroma), PLAIN).objections.map(({ code }) => code);
    expect(codes(3.9)).toEqual(['no-colour']);
    expect(codes(4.1)).toEqual([]);
    expect(judgeColour(black, strip(4.1), PLAIN).doubts).toEqual([]);
  });
});
