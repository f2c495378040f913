import { describe, expect, it } from 'vitest';
import type { Triple } from '../../../src/core/colour/lab.ts';
import type { BlockOnLabel } from '../../../src/core/scale/carry-light.ts';
import { judgeChart } from '../../../src/core/scale/judge-chart.ts';
import { encoded, evenCard, patch, PLAIN } from '../reading/samples.ts';

/** As the even card's paper is: 0.86 of the light is L* 116 cbrt(0.86) - 16 = 94.3. */
const WHITE: Triple = [94.3, 0, 0];

function block(label: Triple | null, change: Parameters<typeof patch>[2] = {}): BlockOnLabel {
  const place = { xMm: 74, yMm: 120 };
  return {
    sample: patch('', encoded([60, 20, 20]), { ...place, ...change }),
    label: label && patch('', encoded(label), place),
  };
}

const judge = (...blocks: BlockOnLabel[]) => judgeChart(evenCard(), PLAIN, blocks);
const labelled = (...labels: readonly Triple[]) => judge(...labels.map((label) => block(label)));

describe('a photo of a chart', () => {
  it('raises no concern with a white label close to the card', () => {
    expect(labelled(WHITE, WHITE, WHITE, WHITE)).toEqual([]);
  });

  it('is too far away when its nearest block is, or its farthest', () => {
    const at = (...mm: number[]) => judge(...mm.map((beyond) => block(null, { yMm: 105 + beyond })));
    expect(at(50, 160)).toEqual([]);
    expect(at(51, 60)).toEqual([{ code: 'far', mm: 51 }]);
    expect(at(20, 161)).toEqual([{ code: 'far', mm: 20 }]);
  });

  it('counts the distance from the card’s nearest edge, on every side and at its corners', () => {
    const at = (xMm: number, yMm: number) => judge(block(null, { xMm, yMm }));
    for (const [xMm, yMm] of [
      [-51, 50],
      [199, 50],
      [74, -51],
      [74, 156],
    ] as const) {
      expect(at(xMm, yMm)).toEqual([{ code: 'far', mm: 51 }]);
      expect(at(xMm - Math.sign(xMm - 74), yMm - Math.sign(yMm - 50))).toEqual([]);
    }
    // 36 and 48 make 60.
    expect(at(148 + 36, 105 + 48)).toEqual([{ code: 'far', mm: 60 }]);
    expect(at(74, 52)).toEqual([]);
  });

  it('names the blocks that mirror a light or are overexposed', () => {
    const blocks = [{}, { clipped: 0.05 }, { clipped: 0.06 }, { rejected: 0.3 }, { rejected: 0.31 }];
    expect(judge(...blocks.map((change) => block(null, change)))).toEqual([{ code: 'glare', blocks: [2, 4] }]);
  });

  it('says nothing of the light with fewer than four labels, or a card without paper', () => {
    const dark: Triple = [60, 0, 0];
    expect(labelled(dark, dark, dark)).toEqual([]);
    expect(labelled(dark, dark, dark, dark)).toHaveLength(1);
    const bare = evenCard({ paper: [] });
    expect(
      judgeChart(
        bare,
        PLAIN,
        [dark, dark, dark, dark].map((label) => block(label)),
      ),
    ).toEqual([]);
  });

  it.each([
    [81, 0, 'darker'],
    [83, 0, null],
    [81, 4.4, 'darker'],
    [81, 4.6, 'tinted'],
    [71, 4.6, 'tinted'],
    [69, 4.6, null],
    [99.4, 0, null],
    [99.6, 0, 'brighter'],
  ] as const)('with a label of L* %d and chroma %d: %j', (lightness, chroma, kind) => {
    // 0.6 and 0.8 of it along a* and b*; the paper has none.
    const label: Triple = [lightness, 0.6 * chroma, 0.8 * chroma];
    expect(labelled(label, label, label, label)).toEqual(kind ? [{ code: 'other-light', kind }] : []);
  });

  it('takes the middle label, and tint against the card’s own paper', () => {
    const odd: Triple = [60, 30, 0];
    expect(labelled(odd, ...Array<Triple>(10).fill(WHITE))).toEqual([]);
    const cream: Triple = [92, 0, 6];
    const creamCard = evenCard({ paper: evenCard().paper.map((one) => ({ ...one, rgb: encoded(cream) })) });
    const blocks = (label: Triple) => [0, 1, 2, 3].map(() => block(label));
    expect(judgeChart(creamCard, PLAIN, blocks(cream))).toEqual([]);
    expect(judgeChart(creamCard, PLAIN, blocks(WHITE))).toEqual([{ code: 'other-light', kind: 'tinted' }]);
  });

  it('is uneven when the labels’ lightness changes by more than 8, a tenth at either end left out', () => {
    // Eleven labels: the second and the tenth are compared.
    const along = (by: number, ...ends: readonly [number, number][]) => {
      const lightness = [90, 90, ...Array<number>(7).fill(90 + by / 2), 90 + by, 90 + by];
      for (const [place, value] of ends) lightness[place] = value;
      return labelled(...lightness.map((l): Triple => [l, 0, 0]));
    };
    expect(along(7.9)).toEqual([]);
    expect(along(8.1)).toEqual([{ code: 'uneven', steps: expect.closeTo(8.1, 6) as number }]);
    expect(along(7.9, [0, 84], [10, 99])).toEqual([]);
  });

  it('follows the card’s own light no further than 40 mm beyond it', () => {
    const places: [number, number][] = [];
    const watching = {
      ...PLAIN,
      toLinear: (rgb: Triple, xMm: number, yMm: number) => {
        places.push([xMm, yMm]);
        return PLAIN.toLinear(rgb, xMm, yMm);
      },
    };
    const at = (xMm: number, yMm: number): BlockOnLabel => ({
      ...block(null),
      label: patch('', encoded(WHITE), { xMm, yMm }),
    });
    judgeChart(evenCard(), watching, [at(-60, 200), at(200, -60), at(-30, 140), at(74, 52)]);
    expect(places.slice(0, 4)).toEqual([
      [-40, 145],
      [188, -40],
      [-30, 140],
      [74, 52],
    ]);
  });
});
