import Color from 'colorjs.io';
import { describe, expect, it } from 'vitest';
import { ciede2000 } from '../../../src/core/colour/difference.ts';
import type { Triple } from '../../../src/core/colour/lab.ts';
import { placeOnCurve, placePad } from '../../../src/core/reading/place.ts';
import { curveThrough } from '../../../src/core/scale/curve.ts';
import type { ScalePad } from '../../../src/core/scale/schema.ts';
import { randomFrom } from '../log/random.ts';
import { phPad, saturatingPad } from '../scale/fixtures.ts';

const moved = ([l, a, b]: Triple, by: Triple): Triple => [l + by[0], a + by[1], b + by[2]];

describe('placing a pad on its scale', () => {
  it('gives back every value whose exact colour it is shown, also between the blocks', () => {
    for (const pad of [phPad(), saturatingPad()]) {
      const curve = curveThrough(pad);
      for (let share = 0; share <= 1; share += 0.04) {
        const position = share * curve.length;
        const placed = placeOnCurve(curve.labAt(position), curve, 1);
        expect(Math.abs(curve.positionOf(placed.best.value) - position)).toBeLessThan(0.05);
        expect(placed.deltaE).toBeLessThan(0.05);
        expect(placed.best.low).toBeLessThanOrEqual(placed.best.value);
        expect(placed.best.high).toBeGreaterThanOrEqual(placed.best.value);
        expect(placed.offScale).toBeNull();
      }
    }
  });

  it('widens the interval with the uncertainty, and where the colours hardly change', () => {
    const pad = phPad();
    const curve = curveThrough(pad);
    const middle = curve.labAt(curve.length / 2);
    const width = (sigma: number) => {
      const { low, high } = placeOnCurve(middle, curve, sigma).best;
      return high - low;
    };
    expect(width(2)).toBeGreaterThan(1.8 * width(1));
    const top = curveThrough(saturatingPad());
    const nearTop = placeOnCurve(top.labAt(top.length - 0.5), top, 1);
    expect(nearTop.best.high).toBe(10);
    expect(nearTop.best.low).toBeLessThan(6);
  });

  it('misses no nearer place, on curves that wind as no strip does (against every step, by colorjs.io)', () => {
    const { uniform } = randomFrom(12);
    // All of one side of grey: between opposite hues CIEDE2000 has a step.
    const anyLab = (): [number, number, number] => [40 + 40 * uniform(), 15 + 40 * uniform(), 60 * uniform() - 30];
    for (let round = 0; round < 25; round++) {
      const blocks = Array.from({ length: 5 }, (_, value) => ({ value, lab: anyLab() }));
      const curve = curveThrough({ ...phPad(), blocks });
      const [l, a, b] = anyLab();
      const lab = moved(curve.labAt(uniform() * curve.length), [l / 10, a / 10, b / 10]);
      let least = Infinity;
      for (let position = -12; position <= curve.length + 12; position += 0.02) {
        // Called Lab under D50, so that the numbers are taken as they are.
        const here = new Color('lab', [...curve.labAt(position)]);
        least = Math.min(least, here.deltaE2000(new Color('lab', [...lab])));
      }
      const { deltaE, matched } = placeOnCurve(lab, curve, 3);
      expect(deltaE).toBeLessThan(least + 0.01);
      expect(deltaE).toBeGreaterThan(least - 0.01);
      expect(matched).toBe(deltaE <= 12);
    }
  });

  it('says above or below when the colour goes on past the ends', () => {
    const curve = curveThrough(phPad());
    expect(placeOnCurve(curve.labAt(curve.length + 6), curve, 1)).toMatchObject({ offScale: 'above' });
    expect(placeOnCurve(curve.labAt(-6), curve, 1)).toMatchObject({ offScale: 'below' });
    expect(placeOnCurve(curve.labAt(-0.2), curve, 1)).toMatchObject({
      offScale: null,
      openBelow: true,
      openAbove: false,
    });
    expect(placeOnCurve(curve.labAt(curve.length / 2), curve, 1)).toMatchObject({ openBelow: false, openAbove: false });
  });

  it('stops at what is no colour', () => {
    expect(() => placeOnCurve([NaN, 0, 0], curveThrough(phPad()), 1)).toThrow(RangeError);
  });

  it('never says below nothing', () => {
    const curve = curveThrough(saturatingPad());
    const placed = placeOnCurve(curve.labAt(-6), curve, 1);
    expect(placed.offScale).toBeNull();
    expect(placed.openBelow).toBe(false);
    expect(placed.best.value).toBe(0);
  });

  it('is no surer of nothing for a colour that lies far beyond it', () => {
    const curve = curveThrough(saturatingPad());
    const at = placeOnCurve(curve.labAt(0), curve, 1).best;
    for (const beyond of [-1, -3, -6]) {
      const { low, high } = placeOnCurve(curve.labAt(beyond), curve, 1).best;
      expect(low).toBe(0);
      // The colour's uncertainty is 1.6 of CIEDE2000 at 90 %, wherever it lies.
      expect(high).toBeGreaterThan(0.8 * at.high);
    }
  });

  it('does not force a colour that is near no part of the scale', () => {
    const curve = curveThrough(phPad());
    const placed = placeOnCurve(moved(curve.labAt(5), [-10, -40, -60]), curve, 1.5);
    expect(placed.matched).toBe(false);
  });

  it('gives both values where the curve comes back near itself', () => {
    const pad: ScalePad = {
      ...phPad(),
      blocks: [
        { value: 1, lab: [70, 0, 0] },
        { value: 2, lab: [70, 30, 0] },
        { value: 3, lab: [70, 30, 30] },
        { value: 4, lab: [70, 2, 3] },
      ],
    };
    const curve = curveThrough(pad);
    const placed = placeOnCurve([70, 1, 1.2], curve, 1.5);
    expect(placed.alternative).not.toBeNull();
    const [one, two] = [placed.best, placed.alternative!].sort((a, b) => a.value - b.value) as [
      typeof placed.best,
      typeof placed.best,
    ];
    expect(one.value).toBeLessThan(1.5);
    expect(two.value).toBeGreaterThan(3.5);
    expect(one.high).toBeLessThan(two.low);
  });
});

/**
 * Greys of L* 40 to 60, where a step in L* is a step of CIEDE2000 but for a few per cent (S_L of CIE 142-2001): between
 * 45 and 50, and 50 and 55, 5 / (1 + 0.015 * 2.5^2 / sqrt(20 + 2.5^2)) = 4.910.
 */
const GREYS: ScalePad = {
  ...phPad(),
  blocks: [40, 45, 50, 55, 60].map((l, i) => ({ value: 1 + i, lab: [l, 0, 0] })),
};
const STEP = 4.91;

/** Off the greys by so much CIEDE2000 at L* 50, found by halving. */
function beside(deltaE: number): Triple {
  let [low, high] = [0, 60];
  for (let i = 0; i < 50; i++) {
    const middle = (low + high) / 2;
    if (ciede2000([50, 0, 0], [50, middle, 0]) < deltaE) low = middle;
    else high = middle;
  }
  return [50, low, 0];
}

describe('how far an interval reaches', () => {
  const curve = curveThrough(GREYS);

  it.each([0.5, 1, 2])(
    'is 1.645 standard deviations of %d each way, two-sided 90 %% of the normal distribution',
    (sigma) => {
      const { best, deltaE } = placeOnCurve([50, 0, 0], curve, sigma);
      expect(deltaE).toBeCloseTo(0, 3);
      expect(best.value).toBeCloseTo(3, 3);
      expect(Math.abs(best.high - 3 - (1.645 * sigma) / STEP)).toBeLessThan(0.01 * sigma);
      expect(Math.abs(3 - best.low - (1.645 * sigma) / STEP)).toBeLessThan(0.01 * sigma);
    },
  );

  it('is the same for a colour beside the curve, whose distance is told', () => {
    const { best, deltaE, matched } = placeOnCurve(beside(3), curve, 1);
    expect(matched).toBe(true);
    expect(deltaE).toBeCloseTo(3, 3);
    expect(best.value).toBeCloseTo(3, 3);
    expect(Math.abs(best.high - 3 - 1.645 / STEP)).toBeLessThan(0.02);
  });

  it.each([
    [3.9, 1, true],
    [4.1, 1, false],
    [7.9, 2, true],
    [8.1, 2, false],
    [11.9, 5, true],
    [12.1, 5, false],
  ])('at %d beside the curve and a standard deviation of %d belongs to it: %j', (off, sigma, matched) => {
    expect(placeOnCurve(beside(off), curve, sigma).matched).toBe(matched);
  });

  // Three tenths of a standard deviation, set on simulated strips.
  it.each([
    [0.2, 1, null],
    [0.4, 1, 'off'],
    [0.5, 2, null],
    [0.7, 2, 'off'],
  ])('%d beyond an end with a standard deviation of %d: %j', (by, sigma, off) => {
    expect(placeOnCurve(curve.labAt(curve.length + by), curve, sigma).offScale).toBe(off && 'above');
    expect(placeOnCurve(curve.labAt(-by), curve, sigma).offScale).toBe(off && 'below');
  });

  it('is open at an end that it reaches', () => {
    const openAt = (position: number) => {
      const { openBelow, openAbove } = placeOnCurve(curve.labAt(position), curve, 1);
      return [openBelow, openAbove];
    };
    expect(openAt(1.5)).toEqual([true, false]);
    expect(openAt(1.9)).toEqual([false, false]);
    expect(openAt(curve.length - 1.9)).toEqual([false, false]);
    expect(openAt(curve.length - 1.4)).toEqual([false, true]);
  });

  it('has no second stretch that lies beyond the scale', () => {
    // Comes back over its own beginning only where it goes on straight beyond its last block.
    const back: ScalePad = {
      ...GREYS,
      blocks: [
        { value: 1, lab: [70, 0, 0] },
        { value: 2, lab: [70, 30, 0] },
        { value: 3, lab: [70, 30, 30] },
        { value: 4, lab: [70, 12, 8] },
      ],
    };
    const folded = curveThrough(back);
    const places = Array.from({ length: 300 }, (_, i) => i / 25);
    const meetings = places.flatMap((one) =>
      places.map((beyond) => ({
        one,
        off: ciede2000(folded.labAt(one), folded.labAt(folded.length + beyond)),
        toEnd: ciede2000(folded.labAt(one), folded.labAt(folded.length)),
      })),
    );
    const nearest = meetings.filter(({ toEnd }) => toEnd > 3).sort((a, b) => a.off - b.off)[0]!;
    expect(nearest.off).toBeLessThan(0.5);
    const { best, alternative } = placeOnCurve(folded.labAt(nearest.one), folded, 1);
    expect(best.value).toBeLessThan(2);
    expect(alternative).toBeNull();
  });
});

describe('two views of one pad', () => {
  const curve = curveThrough(GREYS);
  /** The same blocks in a light in which all look darker. */
  const darker = curveThrough({
    ...GREYS,
    blocks: GREYS.blocks.map(({ value, lab: [l] }) => ({ value, lab: [l - 8, 0, 0] })),
  });

  it('meet at the value that both show', () => {
    const views = [
      { lab: [50, 0, 0] as Triple, curve, weight: 0.5 },
      { lab: [42, 0, 0] as Triple, curve: darker, weight: 0.5 },
    ];
    const { best, deltaE } = placePad(views, curve, 1);
    expect(best.value).toBeCloseTo(3, 2);
    expect(deltaE).toBeLessThan(0.05);
  });

  it('weigh as they are told where they disagree', () => {
    // One shows the second block, one the fourth: least squares puts the value at the weighted mean.
    const at = (weight: number) =>
      placePad(
        [
          { lab: [45, 0, 0], curve, weight },
          { lab: [47, 0, 0], curve: darker, weight: 1 - weight },
        ],
        curve,
        1,
      ).best.value;
    expect(Math.abs(at(0.5) - 3)).toBeLessThan(0.1);
    expect(Math.abs(at(0.75) - 2.5)).toBeLessThan(0.15);
    expect(Math.abs(at(0.25) - 3.5)).toBeLessThan(0.15);
  });

  it('are off by the root mean square of their distances', () => {
    // 3 and 4: the root of (9 + 16) / 2.
    const views = [3, 4].map((off) => ({ lab: beside(off), curve, weight: 0.5 }));
    expect(placePad(views, curve, 1).deltaE).toBeCloseTo(Math.sqrt(12.5), 2);
  });

  it('of one and another curve go by the own curve of the view', () => {
    const { best } = placePad([{ lab: [42, 0, 0], curve: darker, weight: 1 }], curve, 1);
    expect(best.value).toBeCloseTo(3, 2);
  });
});
