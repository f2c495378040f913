/**
 * The smooth map. Its worth is judged on real photos of a colour chart (test/reference/real-chart-photos.csv); its sums
 * against what must hold of any Gaussian process.
 */
import { describe, expect, it } from 'vitest';
import { ANCHORS, NEUTRALS } from '../../../src/core/card/geometry.ts';
import type { Pair } from '../../../src/core/colour/anchors.ts';
import { fitColourMap } from '../../../src/core/colour/colour-map.ts';
import { ciede2000 } from '../../../src/core/colour/difference.ts';
import { decodeSrgb, labToLinear, linearToLab, type Triple } from '../../../src/core/colour/lab.ts';

const anchors: Triple[] = ANCHORS.map(({ srgb }) => srgb.map(decodeSrgb) as unknown as Triple);
const greys: Triple[] = NEUTRALS.map(({ ink }) => [1 - 0.9 * ink, 1 - 0.9 * ink, 1 - 0.9 * ink]);
const pairs = (colours: readonly Triple[], to: (v: Triple) => Triple): Pair[] =>
  colours.map((from) => ({ from, to: to(from) }));
const same = (v: Triple) => v;
const off = (one: Triple, other: Triple) => ciede2000(linearToLab(one), linearToLab(other));

/** Reds turned towards orange, blues made paler: as a phone's rendering does, and no matrix can. */
function rendered(linear: Triple): Triple {
  const [l, a, b] = linearToLab(linear);
  const [chroma, hue] = [Math.hypot(a, b), Math.atan2(b, a)];
  const turned = hue + 0.12 * Math.cos(hue);
  const paler = chroma * (1 + 0.12 * Math.sin(hue));
  return labToLinear([l, paler * Math.cos(turned), paler * Math.sin(turned)]);
}

describe('the map through the patches', () => {
  it('leaves colours alone when both photos saw the same', () => {
    const map = fitColourMap(pairs(anchors, same), pairs(greys, same));
    map.apply([0.3, 0.2, 0.1]).forEach((value, c) => expect(value).toBeCloseTo([0.3, 0.2, 0.1][c]!, 6));
    expect(map.residual).toBeCloseTo(0, 6);
    expect(map.residualWithout).toBe(0);
  });

  it('follows what a phone does to hues, in colours that it wasn’t fitted to', () => {
    const map = fitColourMap(pairs(anchors, rendered), pairs(greys, rendered));
    expect(map.residual).toBeLessThan(0.6 * map.residualWithout);
    const between = anchors.map((one, i) => one.map((value, c) => (value + anchors[(i + 5) % 18]![c]!) / 2));
    const [after, before] = [map.apply, same].map((to) =>
      between.map((colour) => off(to(colour as unknown as Triple), rendered(colour as unknown as Triple))),
    );
    const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
    expect(sum(after!)).toBeLessThan(0.5 * sum(before!));
  });

  it('tells its residual by maps that hadn’t the patch judged', () => {
    const [colours, neutrals] = [pairs(anchors, rendered), pairs(greys, rendered)];
    const errors = colours.map((judged) => {
      const rest = colours.filter((one) => one !== judged);
      return off(fitColourMap(rest, neutrals).apply(judged.from), judged.to);
    });
    const expected = Math.sqrt(errors.reduce((sum, error) => sum + error * error, 0) / errors.length);
    expect(fitColourMap(colours, neutrals).residual).toBeCloseTo(expected, 6);
  });

  it('has no residual without colour patches', () => {
    expect(fitColourMap([], pairs(greys, same))).toMatchObject({ residual: Infinity, residualWithout: Infinity });
  });
});

describe('how sure the map is', () => {
  const map = fitColourMap(pairs(anchors, same), pairs(greys, same));
  const sigma = (linear: Triple, by = map) => Math.sqrt(by.covarianceOf([linear])[1]![1]!);

  it('is surest among the patches and least sure far from all of them', () => {
    expect(sigma(anchors[3]!)).toBeLessThan(1);
    expect(sigma([0.9, 0.02, 0.02])).toBeGreaterThan(1.5 * sigma(anchors[3]!));
  });

  it('knows greys by the greys alone, and strong colours hardly', () => {
    const byGreys = fitColourMap([], pairs(greys, same));
    expect(sigma([0.4, 0.4, 0.4], byGreys)).toBeLessThan(1);
    expect(sigma(anchors[8]!, byGreys)).toBeGreaterThan(2);
    expect(sigma(anchors[8]!)).toBeLessThan(0.6 * sigma(anchors[8]!, byGreys));
  });

  it('errs alike in colours that are alike, as a symmetric covariance', () => {
    const [near, other, far]: Triple[] = [
      [0.8, 0.05, 0.05],
      [0.78, 0.06, 0.05],
      [0.05, 0.1, 0.5],
    ];
    const covariance = map.covarianceOf([near!, other!, far!]);
    covariance.forEach((row, i) => row.forEach((value, j) => expect(value).toBeCloseTo(covariance[j]![i]!, 9)));
    const correlation = (i: number, j: number) =>
      covariance[i]![j]! / Math.sqrt(covariance[i]![i]! * covariance[j]![j]!);
    expect(correlation(1, 4)).toBeGreaterThan(0.8);
    expect(Math.abs(correlation(1, 7))).toBeLessThan(0.5);
  });
});
