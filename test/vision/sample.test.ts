import { describe, expect, it } from 'vitest';
import { ANCHORS, type CardVariant, NEUTRALS, PAPER_PATCHES, VERSION_CELLS } from '../../src/core/card/geometry.ts';
import { readCodes, readVersion } from '../../src/vision/card-codes.ts';
import { sampleCard } from '../../src/vision/sample.ts';
import type { Pixels } from '../../src/vision/pixels.ts';
import { flatCard } from './pictures.ts';

function painted(flat: Pixels, rects: readonly { xMm: number; yMm: number; widthMm: number; heightMm: number }[]) {
  const data = flat.data.slice();
  for (const { xMm, yMm, widthMm, heightMm } of rects) {
    for (let y = Math.round(yMm * 10); y < (yMm + heightMm) * 10; y++) {
      data.fill(
        250,
        (y * flat.width + Math.round(xMm * 10)) * 4,
        (y * flat.width + Math.round((xMm + widthMm) * 10)) * 4,
      );
    }
  }
  return { ...flat, data };
}

function dimmed(flat: Pixels, shade: (xMm: number, yMm: number) => number): Pixels {
  const data = flat.data.map((value, i) => {
    const pixel = i >> 2;
    return i % 4 === 3 ? value : value * shade((pixel % flat.width) / 10, Math.floor(pixel / flat.width) / 10);
  });
  return { ...flat, data };
}

describe('sampling the card', () => {
  const flat = flatCard();
  const samples = sampleCard(flat, readCodes(flat), null);

  it('samples everything in the card’s own order', () => {
    expect(samples.neutrals.map((sample) => sample.id)).toEqual(NEUTRALS.map((neutral) => neutral.id));
    expect(samples.anchors.map((sample) => sample.id)).toEqual(ANCHORS.map((anchor) => anchor.id));
    expect(samples.paper.map((sample) => sample.id)).toEqual(PAPER_PATCHES.map((patch) => patch.id));
    expect(samples.slot).toHaveLength(32);
  });

  it('meets nothing but the patches themselves', () => {
    for (const sample of [...samples.neutrals, ...samples.anchors, ...samples.paper, ...samples.slot]) {
      expect(sample, sample.id).toMatchObject({ scatter: [0, 0, 0], rejected: 0 });
    }
    // The drawing's paper is level 238.
    expect(samples.neutrals[0]!.rgb.map((value) => Math.round(value * 255))).toEqual([238, 238, 238]);
    expect(samples.anchors[0]!.rgb[0] * 255).toBeCloseTo(ANCHORS[0]!.srgb[0] * 238, 0);
  });

  it('leaves out the strip and places of the slot it covers', () => {
    const strip = [
      [20, 49],
      [130, 49],
      [130, 56],
      [20, 56],
    ] as const;
    const withStrip = painted(flat, [{ xMm: 20, yMm: 49, widthMm: 110, heightMm: 7 }]);
    const slot = sampleCard(withStrip, readCodes(withStrip), strip).slot;
    expect(slot.length).toBeGreaterThanOrEqual(16);
    expect(slot.length).toBeLessThan(32);
    for (const sample of slot) expect(sample.scatter).toEqual([0, 0, 0]);
  });

  it('has no anchors on the black-only card', () => {
    const black = sampleCard(flatCard('black'), readCodes(flatCard('black')), null);
    expect(black.variant).toBe('black');
    expect(black.anchors).toEqual([]);
    expect(black.neutrals).toHaveLength(NEUTRALS.length);
  });
});

describe('the version code', () => {
  it('is read from both cards, also in deep shade and across a shadow', () => {
    for (const variant of ['colour', 'black'] as const satisfies readonly CardVariant[]) {
      const flat = flatCard(variant);
      expect(readVersion(flat)).toEqual({ version: 1, variant });
      expect(readVersion(dimmed(flat, () => 0.3))).toEqual({ version: 1, variant });
      expect(readVersion(dimmed(flat, (x, y) => (y > 54 ? 0.45 : 1) * (1 - x / 400)))).toEqual({ version: 1, variant });
    }
  });

  it('is refused when one black cell is missing', () => {
    const flat = flatCard();
    const cells = VERSION_CELLS.filter(
      (cell) => flat.data[((cell.yMm * 10 + 15) * 1480 + cell.xMm * 10 + 20) * 4]! < 99,
    );
    expect(cells.length).toBeGreaterThan(0);
    for (const cell of cells) expect(readVersion(painted(flat, [cell]))).toBeNull();
  });
});
