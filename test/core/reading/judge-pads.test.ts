import { describe, expect, it } from 'vitest';
import { decodeSrgb, type Triple } from '../../../src/core/colour/lab.ts';
import { dryness, judgePads, riseBeside } from '../../../src/core/reading/judge-pads.ts';
import type { PadSample, PatchSample } from '../../../src/core/samples.ts';
import { curveThrough } from '../../../src/core/scale/curve.ts';
import type { ScalePad, StripScale } from '../../../src/core/scale/schema.ts';
import { phPad, plainScale, saturatingPad } from '../scale/fixtures.ts';
import { grey, pad, patch } from './samples.ts';

const SCALE: StripScale = {
  ...plainScale(),
  pads: [phPad(), saturatingPad(), { ...phPad(), parameter: 'total-hardness' }],
};
const PH: Triple = [80, 5, 60];
const CHLORINE: Triple = [92, 0, 0];
const linear = ({ rgb }: PatchSample) => rgb.map(decodeSrgb) as unknown as Triple;

/** Three pads that show their first blocks' colours, some of them changed. */
function judged(changes: readonly Partial<PadSample>[], shadowSpread = 0, isPaperClipped = false) {
  const pads = SCALE.pads.map(({ parameter }, i) => pad(parameter, i === 1 ? CHLORINE : PH, changes[i]));
  const base = [0.6, 0.6, 0.6].map((level, i) => patch(`b${i}`, grey(level)));
  const curves = SCALE.pads.map(curveThrough);
  return judgePads({ base, pads, reversed: false }, SCALE, linear, curves, shadowSpread, isPaperClipped);
}

describe('how much brighter the plastic is beside a pad', () => {
  const base = [0.9, 0.1, 0.5].map((level, i) => patch(`b${i}`, grey(level)));
  const beside = (...colours: Triple[]) => pad('ph', PH, { beside: colours.map((rgb, i) => patch(`x${i}`, rgb)) });

  it('counts against the middle of the strip’s other plastic', () => {
    expect(riseBeside(beside(grey(0.6)), base, linear)).toBeCloseTo(0.2, 9);
    expect(riseBeside(beside(grey(0.6)), [...base].reverse(), linear)).toBeCloseTo(0.2, 9);
  });

  it('takes the brighter side of the pad, by its least risen channel', () => {
    expect(riseBeside(beside(grey(0.55), grey(0.75)), base, linear)).toBeCloseTo(0.5, 9);
    const [low, mid, high] = [0.5, 0.55, 0.9].map((level) => grey(level)[0]);
    expect(riseBeside(beside([high!, mid!, high!]), base, linear)).toBeCloseTo(0.1, 9);
    expect(riseBeside(beside([high!, high!, low!]), base, linear)).toBeCloseTo(0, 9);
  });

  it('is nothing in the shade, beside nothing, and without plastic to compare with', () => {
    expect(riseBeside(beside(grey(0.4)), base, linear)).toBe(0);
    expect(riseBeside(beside(), base, linear)).toBe(0);
    expect(riseBeside(beside(grey(0.9)), [], linear)).toBe(0);
  });
});

describe('a pad’s own troubles', () => {
  it('has none when it is evenly lit', () => {
    expect(judged([])).toEqual({ objections: [], doubts: [] });
    expect(judged([{ brightened: 0.25, clipped: 0.2, beside: [patch('x', grey(0.6 * 1.059))] }]).doubts).toEqual([]);
  });

  it('is a reflection where a quarter of the pad, or the plastic beside it, is brighter', () => {
    const [{ outline }] = [pad('ph', PH)];
    const { doubts, objections } = judged([{ brightened: 0.3 }]);
    expect(objections).toEqual([]);
    expect(doubts).toHaveLength(1);
    expect(doubts[0]).toMatchObject({ code: 'glare-on-pad', parameter: 'ph', outline });
    // 2 + 4 * 0.3.
    expect(doubts[0]!.sigma).toBeCloseTo(3.2, 9);
    const beside = judged([{ beside: [patch('x', grey(0.6 * 1.1))] }]).doubts;
    expect(beside.map(({ code }) => code)).toEqual(['glare-on-pad']);
    // 2 + 20 * 0.1.
    expect(beside[0]!.sigma).toBeCloseTo(4, 6);
  });

  it('allows for a shadow’s edge beside the pad', () => {
    const risen = [{ beside: [patch('x', grey(0.6 * 1.15))] }];
    // 0.06 + 0.04 * 2 = 0.14; 0.06 + 0.04 * 2.5 = 0.16.
    expect(judged(risen, 2).doubts).toHaveLength(1);
    expect(judged(risen, 2.5).doubts).toEqual([]);
  });

  it('is too bright for the sensor over more than a fifth of it, unless that is a reflection', () => {
    const { doubts } = judged([{}, { clipped: 0.21 }]);
    expect(doubts).toEqual([
      { code: 'pad-clipped', sigma: 3, parameter: 'free-chlorine', outline: pad('ph', PH).outline },
    ]);
    expect(judged([{}, { clipped: 0.3, brightened: 0.3 }]).doubts.map(({ code }) => code)).toEqual(['glare-on-pad']);
  });

  it('refuses the photo when half of the pads or more mirror a light', () => {
    const mirroring = { brightened: 0.3 };
    expect(judged([mirroring]).objections).toEqual([]);
    expect(judged([mirroring, { clipped: 0.3 }, { clipped: 0.3 }]).objections).toEqual([]);
    const two = plainScale();
    const pads = two.pads.map(({ parameter }, i) => pad(parameter, i === 1 ? CHLORINE : PH, i === 0 ? mirroring : {}));
    const curves = two.pads.map(curveThrough);
    const halved = judgePads({ base: [], pads, reversed: false }, two, linear, curves, 0, false);
    expect(halved.objections.map(({ code }) => code)).toEqual(['glare-over-pads']);
    const { objections, doubts } = judged([mirroring, {}, mirroring]);
    const outline = pad('ph', PH).outline;
    expect(objections).toEqual(
      ['ph', 'total-hardness'].map((parameter) => ({ code: 'glare-over-pads', parameter, outline })),
    );
    expect(doubts).toEqual([]);
  });

  it('takes a pad that fills the sensor for a mirror, unless paper does so too', () => {
    const shining = { clipped: 0.51 };
    expect(judged([shining, shining]).objections.map(({ code }) => code)).toEqual([
      'glare-over-pads',
      'glare-over-pads',
    ]);
    expect(judged([{ clipped: 0.5 }, { clipped: 0.5 }]).objections).toEqual([]);
    expect(judged([shining, shining], 0, true).objections).toEqual([]);
    expect(judged([shining, shining], 0, true).doubts).toHaveLength(2);
  });
});

describe('a strip that was never dipped', () => {
  /** L* so far from 50 that it lies at a CIEDE2000 of `deltaE` from it: S_L of CIE 142-2001 half way between. */
  const away = (deltaE: number) => {
    const square = (deltaE / 2) ** 2;
    return deltaE * (1 + (0.015 * square) / Math.sqrt(20 + square));
  };
  /** Two pads of L* 50, so far from their dry colours, and from the first of their blocks, which go on away from them. */
  const dryAt = (dry: readonly number[], developed: readonly number[]) => {
    const pads = dry.map((off, i): ScalePad => {
      const first = 50 + away(developed[i]!);
      const blocks = [0, 1, 2].map((k) => ({ value: 6 + k, lab: [first + 12 * k, 0, 0] as [number, number, number] }));
      return { ...phPad(), dry: [50 - away(off), 0, 0], blocks };
    });
    const grey: Triple = [50, 0, 0];
    return dryness(
      { ...plainScale(), pads },
      pads.map(() => grey),
      pads.map(curveThrough),
    );
  };

  it('has the colours that its scale has for that, or others that can’t be told from them', () => {
    expect(dryAt([0, 0], [12, 12])).toBe('dry');
    // 2 * 3^2 - 2 * 4.5^2 = -22.5 in squares of 2.5: -3.6; with 4.75 -4.3; with 5.75 -7.7; with 5.9 -8.3.
    expect(dryAt([4.5, 4.5], [3, 3])).toBe('dry');
    expect(dryAt([4.75, 4.75], [3, 3])).toBe('perhaps');
    expect(dryAt([5.75, 5.75], [3, 3])).toBe('perhaps');
    expect(dryAt([5.9, 5.9], [3, 3])).toBe('developed');
  });

  it('is not one that is neither', () => {
    // Root mean square of more than 6.5 from dry, although farther still from the blocks.
    expect(dryAt([6.4, 6.4], [12, 12])).toBe('dry');
    expect(dryAt([6.6, 6.6], [12, 12])).toBe('developed');
    expect(dryAt([5, 7.5], [12, 12])).toBe('dry');
    expect(dryAt([5, 7.8], [12, 12])).toBe('developed');
  });

  it('lets no pad say more than a distance of 8 can', () => {
    // 8^2 + 2.1^2 - 2 * 6.4^2 = -13.5: -2.2, where 30^2 for 8^2 would be dry beyond doubt, too; and the other way round
    // 2.1^2 + 2.1^2 - 0 - 8^2 = -55.2: -8.8, where 12^2 for 8^2 would be neither.
    expect(dryAt([6.4, 6.4], [30, 2.1])).toBe('dry');
    expect(dryAt([0, 12], [2.1, 2.1])).toBe('developed');
    expect(dryAt([0, 12], [4, 4])).toBe('perhaps');
  });

  it('needs two pads whose dry colours are known', () => {
    const { pads } = plainScale();
    const dry: [number, number, number] = [60, -20, 10];
    const one = { ...plainScale(), pads: [{ ...pads[0]!, dry }, pads[1]!] };
    expect(dryness(one, [dry, dry], one.pads.map(curveThrough))).toBe('developed');
    const three = { ...plainScale(), pads: [{ ...pads[0]!, dry }, pads[1]!, { ...pads[0]!, dry }] };
    expect(dryness(three, [dry, CHLORINE, dry], three.pads.map(curveThrough))).toBe('dry');
  });

  it('is refused, or doubted', () => {
    const judgedAs = (dry: number) => {
      const pads = plainScale().pads.map((one): ScalePad => ({
        ...one,
        dry: [50 - away(dry), 0, 0],
        blocks: [0, 1].map((k) => ({ value: k, lab: [50 + away(3) + 12 * k, 0, 0] })),
      }));
      const strip = { base: [], pads: pads.map(({ parameter }) => pad(parameter, [50, 0, 0])), reversed: false };
      const curves = pads.map(curveThrough);
      return judgePads(strip, { ...plainScale(), pads }, linear, curves, 0, false);
    };
    const reason = { parameter: null, outline: null };
    expect(judgedAs(0)).toEqual({ objections: [{ code: 'pads-dry', ...reason }], doubts: [] });
    expect(judgedAs(5)).toEqual({ objections: [], doubts: [{ code: 'perhaps-dry', sigma: 0, ...reason }] });
    expect(judgedAs(6)).toEqual({ objections: [], doubts: [] });
  });
});
