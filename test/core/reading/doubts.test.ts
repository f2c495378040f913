import { describe, expect, it } from 'vitest';
import { codesOf, type Doubt, doubtSigma, placesOf, mergeJudgements } from '../../../src/core/reading/doubts.ts';

const OUTLINE = [
  [0, 0],
  [1, 0],
  [1, 1],
] as const;
const doubt = (change: Partial<Doubt>): Doubt => ({
  code: 'mixed-light',
  sigma: 0,
  parameter: null,
  outline: null,
  ...change,
});

describe('doubts about a reading', () => {
  it('add up for a pad as independent errors, its own and those about all pads', () => {
    const doubts = [
      doubt({ sigma: 3 }),
      doubt({ code: 'pad-clipped', sigma: 4, parameter: 'ph' }),
      doubt({ code: 'pad-clipped', sigma: 12, parameter: 'salt' }),
    ];
    // 3 and 4 make 5; 3 and 12 make the root of 153.
    expect(doubtSigma(doubts, 'ph')).toBeCloseTo(5, 12);
    expect(doubtSigma(doubts, 'salt')).toBeCloseTo(Math.sqrt(153), 12);
    expect(doubtSigma(doubts, 'total-hardness')).toBeCloseTo(3, 12);
    expect(doubtSigma([], 'ph')).toBe(0);
  });

  it('are told once each, in their order', () => {
    const codes = ['poor-fit', 'mixed-light', 'poor-fit'] as const;
    expect(codesOf(codes.map((code) => doubt({ code })))).toEqual(['poor-fit', 'mixed-light']);
  });

  it('have a place where there is an outline', () => {
    expect(placesOf([doubt({}), doubt({ parameter: 'ph', outline: OUTLINE, sigma: 2 })])).toEqual([
      { code: 'mixed-light', parameter: 'ph', outline: OUTLINE },
    ]);
  });

  it('come together in the order of the judges', () => {
    const objection = { code: 'pads-dry', parameter: null, outline: null } as const;
    const one = { objections: [objection], doubts: [doubt({ sigma: 1 })] };
    const two = { objections: [{ ...objection, code: 'no-colour' as const }], doubts: [doubt({ sigma: 2 })] };
    const all = mergeJudgements(one, two);
    expect(all.objections.map(({ code }) => code)).toEqual(['pads-dry', 'no-colour']);
    expect(all.doubts.map(({ sigma }) => sigma)).toEqual([1, 2]);
  });
});
