import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { PatchSample, Rgb } from '../../../src/core/samples.ts';
import { CARD_HEIGHT_MM } from '../../../src/core/card/geometry.ts';
import { type BlockOnLabel, carryLight, carryRows, MAX_BEYOND_MM } from '../../../src/core/scale/carry-light.ts';

/** IEC 61966-2-1, written apart from the code under test. */
function encode(linear: number): number {
  return linear <= 0.0031308 ? 12.92 * linear : 1.055 * linear ** (1 / 2.4) - 0.055;
}

function sample(reflectance: number, light: number, xMm: number, yMm: number): PatchSample {
  const value = encode(reflectance * light);
  const rgb: Rgb = [value, value, value];
  return { id: '', xMm, yMm, rgb, scatter: [0, 0, 0], count: 100, clipped: 0, rejected: 0 };
}

/** A grid of equal blocks below the card, under light that falls off along it. */
function chart(lightAt: (xMm: number, yMm: number) => number, stray = -1): BlockOnLabel[] {
  return Array.from({ length: 24 }, (_, i) => {
    const [xMm, yMm] = [30 + 12 * (i % 6), 120 + 18 * Math.floor(i / 6)];
    const label = sample(i === stray ? 0.3 : 0.85, lightAt(xMm, yMm + 6), xMm, yMm + 6);
    return { sample: sample(0.3, lightAt(xMm, yMm), xMm, yMm), label };
  });
}

const greens = (blocks: readonly PatchSample[]) => blocks.map(({ rgb }) => rgb[1]);
const spread = (values: readonly number[]) => Math.max(...values) - Math.min(...values);

describe('carrying the light', () => {
  it('leaves colours alone under even light', () => {
    const blocks = chart(() => 0.7);
    carryLight(blocks).forEach(({ rgb }, i) => expect(rgb[1]).toBeCloseTo(blocks[i]!.sample.rgb[1], 6));
  });

  it('makes equal blocks equal again under any light that falls off smoothly', () => {
    const slope = fc.double({ min: -0.15, max: 0.15, noNaN: true });
    fc.assert(
      fc.property(slope, slope, slope, (a, b, c) => {
        const lightAt = (xMm: number, yMm: number) => {
          const [u, v] = [(xMm - 60) / 40, (yMm - 150) / 40];
          return 0.6 * Math.exp(a * u + b * v + c * v * v);
        };
        // Labels are seen 6 mm beside their blocks: the surface, not the nearest label, must carry the light.
        expect(spread(greens(carryLight(chart(lightAt))))).toBeLessThan(0.002);
      }),
      { seed: 12, numRuns: 40 },
    );
  });

  it('is not led astray by a label that is none', () => {
    const lightAt = (xMm: number) => 0.6 + xMm / 1000;
    expect(spread(greens(carryLight(chart(lightAt, 8))))).toBeLessThan(0.006);
  });

  it('puts all blocks at the middle of the chart, held near the card', () => {
    for (const { xMm, yMm } of carryLight(chart(() => 0.7))) {
      expect(xMm).toBe(60);
      expect(yMm).toBe(CARD_HEIGHT_MM + MAX_BEYOND_MM);
    }
  });

  it('keeps the mean light of the chart', () => {
    const blocks = chart((xMm) => 0.6 * Math.exp((xMm - 60) / 300));
    const middle = encode(0.3 * 0.6);
    for (const value of greens(carryLight(blocks))) expect(value).toBeCloseTo(middle, 3);
  });

  it('without labels only holds the places near the card', () => {
    const blocks = chart(() => 0.7).map(({ sample: block }) => ({ sample: block, label: null }));
    const carried = carryLight(blocks);
    expect(greens(carried)).toEqual(greens(blocks.map(({ sample: block }) => block)));
    expect(Math.max(...carried.map(({ yMm }) => yMm))).toBe(CARD_HEIGHT_MM + MAX_BEYOND_MM);
  });

  it('holds places on every side', () => {
    const at = (xMm: number, yMm: number): BlockOnLabel => ({ sample: sample(0.3, 0.7, xMm, yMm), label: null });
    const places = carryLight([at(-60, -70), at(200, 200), at(-30, 140), at(20, 30)]).map(({ xMm, yMm }) => [xMm, yMm]);
    // The card is 148 mm by 105 mm.
    expect(places).toEqual([
      [-40, -40],
      [188, 145],
      [-30, 140],
      [20, 30],
    ]);
  });

  it('needs six labels, and one for three blocks of five', () => {
    const falling = chart((xMm) => 0.6 + xMm / 1000);
    const labelled = (blocks: number, labels: number) =>
      falling.slice(0, blocks).map((one, i) => (i < labels ? one : { ...one, label: null }));
    const isCarried = (blocks: BlockOnLabel[]) => new Set(carryLight(blocks).map(({ xMm }) => xMm)).size === 1;
    expect(isCarried(labelled(6, 6))).toBe(true);
    expect(isCarried(labelled(6, 5))).toBe(false);
    expect(isCarried(labelled(20, 12))).toBe(true);
    expect(isCarried(labelled(20, 11))).toBe(false);
  });

  it('keeps the rows of blocks apart', () => {
    const blocks = chart((xMm) => 0.6 + xMm / 1000);
    const rows = carryRows([blocks.slice(0, 6), blocks.slice(6, 8), blocks.slice(8)]);
    expect(rows.map(({ length }) => length)).toEqual([6, 2, 16]);
    expect(rows.flat()).toEqual(carryLight(blocks));
  });
});
