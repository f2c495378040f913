/** What speaks first where several things speak against a photo. */
import { describe, expect, it } from 'vitest';
import { linearToLab, type Triple } from '../../../src/core/colour/lab.ts';
import { judgeSamples, type Seen } from '../../../src/core/reading/judge-samples.ts';
import type { CardSamples, PadSample } from '../../../src/core/samples.ts';
import { curveThrough } from '../../../src/core/scale/curve.ts';
import type { StripScale } from '../../../src/core/scale/schema.ts';
import { phPad, plainScale, saturatingPad } from '../scale/fixtures.ts';
import { encoded, evenCard, grey, pad, patch, PLAIN } from './samples.ts';

const SCALE: StripScale = {
  ...plainScale(),
  pads: [phPad(), saturatingPad(), { ...phPad(), parameter: 'total-hardness' }],
};

function judged(card: CardSamples, change: Partial<Seen> = {}, pads: Partial<PadSample> = {}) {
  const colours: Triple[] = [
    [80, 5, 60],
    [92, 0, 0],
    [80, 5, 60],
  ];
  const strip = {
    base: [0.6, 0.6, 0.6].map((level, i) => patch(`b${i}`, grey(level))),
    pads: SCALE.pads.map(({ parameter }, i) => pad(parameter, colours[i]!, pads)),
    reversed: false,
  };
  const curves = SCALE.pads.map(curveThrough);
  const all = { card, strip, scale: SCALE, correction: PLAIN, curves, anotherPrint: false, ...change };
  const { objections, doubts } = judgeSamples(all);
  return { objections: objections.map(({ code }) => code), doubts: doubts.map(({ code }) => code), all: objections };
}

/** The left half of the slot darker by some L*. */
function shaded(by: number, card = evenCard()): CardSamples {
  const slot = card.slot.map((one, i) => ({ ...one, rgb: encoded([i < 10 ? 70 - by : 70, 0, 0]) }));
  return { ...card, slot };
}

/** The colour patches as a black-and-white picture has them. */
function colourless(card: CardSamples): CardSamples {
  return {
    ...card,
    anchors: card.anchors.map((one) => ({
      ...one,
      rgb: encoded([linearToLab(PLAIN.toLinear(one.rgb, 0, 0))[0], 0, 0]),
    })),
  };
}

describe('all that speaks against a reading', () => {
  it('is nothing where all is well', () => {
    expect(judged(evenCard())).toMatchObject({ objections: [], doubts: [] });
  });

  it('is gathered from greys, light and pads', () => {
    const { objections, doubts } = judged(shaded(6), { anotherPrint: true }, { clipped: 0.3 });
    expect(objections).toEqual([]);
    expect(doubts.toSorted()).toEqual(['another-print', 'pad-clipped', 'pad-clipped', 'pad-clipped', 'shadow-edge']);
  });

  it('is the light alone where no correction undoes it', () => {
    expect(judged(colourless(shaded(60)), { anotherPrint: true })).toMatchObject({
      objections: ['deep-shadow'],
      doubts: [],
    });
  });

  it('is the camera where the colours are gone in good light, or in light that is only uneven', () => {
    expect(judged(colourless(evenCard()))).toMatchObject({ objections: ['no-colour'], doubts: [] });
    const uneven = { ...PLAIN, shadingPercent: 99 };
    expect(judged(evenCard(), { correction: uneven }).doubts).toEqual(['uneven-light']);
    expect(judged(colourless(evenCard()), { correction: uneven })).toMatchObject({
      objections: ['no-colour'],
      doubts: [],
    });
  });

  it('is the shadow where the colours are gone in one', () => {
    const { objections, doubts, all } = judged(colourless(shaded(6)));
    expect({ objections, doubts }).toEqual({ objections: ['deep-shadow'], doubts: [] });
    expect(all[0]!.outline).not.toBeNull();
  });

  it('takes pads that fill the sensor for a reflection, but not where a tenth of the paper does too', () => {
    const paper = (tenths: number) => {
      const card = evenCard();
      // All of it in one patch: the mean over all of them counts.
      const clipped = (tenths / 10) * card.paper.length;
      return { ...card, paper: card.paper.map((one, i) => (i === 0 ? { ...one, clipped } : one)) };
    };
    const codes = ({ objections }: { objections: string[] }) => [...new Set(objections)];
    expect(codes(judged(paper(0), {}, { clipped: 0.6 }))).toEqual(['glare-over-pads']);
    expect(codes(judged(paper(0.95), {}, { clipped: 0.6 }))).toEqual(['glare-over-pads']);
    expect(codes(judged(paper(1.05), {}, { clipped: 0.6 }))).toEqual([]);
  });
});
