import { describe, expect, it } from 'vitest';
import { linearToLab } from '../../../src/core/colour/lab.ts';
import { judgeColour, vividness } from '../../../src/core/reading/judge-colour.ts';
import type { CardSamples } from '../../../src/core/samples.ts';
import { encoded, evenCard, grey, pad, patch, PLAIN } from './samples.ts';

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
    [0.54, null, 'colour-filter'],
    [0.56, null, null],
    [1.49, null, null],
    [1.51, null, 'colour-filter'],
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
