import { describe, expect, it } from 'vitest';
import { NEUTRALS, SLOT } from '../../../src/core/card/geometry.ts';
import type { Triple } from '../../../src/core/colour/lab.ts';
import type { TintedGrey } from '../../../src/core/colour/neutrals.ts';
import { judgeGreys } from '../../../src/core/reading/judge-greys.ts';
import { judgeExposure } from '../../../src/core/reading/judge.ts';
import type { CardSamples } from '../../../src/core/samples.ts';
import { evenCard, grey, inkOf, PLAIN, withInks } from './samples.ts';

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
