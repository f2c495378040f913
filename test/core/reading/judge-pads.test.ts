import { describe, expect, it } from 'vitest';
import { decodeSrgb, type Triple } from '../../../src/core/colour/lab.ts';
import { dryness, judgePads, riseBeside } from '../../../src/core/reading/judge-pads.ts';
import type { PadSample, PatchSample } from '../../../src/core/samples.ts';
import { curveThrough } from '../../../src/core/scale/curve.ts';
import type { ScalePad, StripScale } from '../../../src/core/scale/schema.ts';
import { phPad, plainScale, saturatingPad } from '../scale/fixtures.ts';
import { grey, pad, patch, PLAIN } from './samples.ts';

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
  const base = [0.1, 0.5, 0.9].map((level, i) => patch(`b${i}`, grey(level)));
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
  const dry = ([l, a, b]: Triple, scalePad: ScalePad): ScalePad => ({ ...scalePad, dry: [l, a, b] });
  // Far from every block of both pads.
  const DRY: readonly Triple[] = [
    [60, -20, 10],
    [60, 40, 40],
  ];
  const scale: StripScale = { ...plainScale(), pads: [dry(DRY[0]!, phPad()), dry(DRY[1]!, saturatingPad())] };
  const curves = scale.pads.map(curveThrough);

  it('has the colours that its scale has for that', () => {
    expect(dryness(scale, DRY, curves)).toBe('dry');
  });

  it('is not one whose pads have their blocks’ colours', () => {
    expect(dryness(scale, [PH, CHLORINE], curves)).toBe('developed');
  });

  it('is not one that is neither', () => {
    // Farther than 6.5 from dry, although farther still from the blocks.
    const neither: Triple[] = [
      [60, -35, 30],
      [60, 20, 70],
    ];
    expect(dryness(scale, neither, curves)).toBe('developed');
  });

  it('needs two pads whose dry colours are known', () => {
    const one = { ...scale, pads: [scale.pads[0]!, saturatingPad()] };
    expect(dryness(one, DRY, curves)).toBe('developed');
  });

  it('is refused', () => {
    const pads = scale.pads.map(({ parameter }, i) => pad(parameter, DRY[i]!));
    const strip = { base: [], pads, reversed: false };
    expect(judgePads(strip, scale, ({ rgb }) => PLAIN.toLinear(rgb, 0, 0), curves, 0, false)).toEqual({
      objections: [{ code: 'pads-dry', parameter: null, outline: null }],
      doubts: [],
    });
  });
});
