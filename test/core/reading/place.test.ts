import { describe, expect, it } from 'vitest';
import type { Triple } from '../../../src/core/colour/lab.ts';
import { placeOnCurve } from '../../../src/core/reading/place.ts';
import { curveThrough } from '../../../src/core/scale/curve.ts';
import type { ScalePad } from '../../../src/core/scale/schema.ts';
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

  it('says above or below when the colour goes on past the ends', () => {
    const curve = curveThrough(phPad());
    expect(placeOnCurve(curve.labAt(curve.length + 6), curve, 1)).toMatchObject({ offScale: 'above' });
    expect(placeOnCurve(curve.labAt(-6), curve, 1)).toMatchObject({ offScale: 'below' });
    expect(placeOnCurve(curve.labAt(-1), curve, 1)).toMatchObject({
      offScale: null,
      openBelow: true,
      openAbove: false,
    });
    expect(placeOnCurve(curve.labAt(curve.length / 2), curve, 1)).toMatchObject({ openBelow: false, openAbove: false });
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
