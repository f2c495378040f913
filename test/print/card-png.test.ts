import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { ANCHORS, NEUTRALS, PAPER_PATCHES, SLOT } from '../../src/core/card/geometry.ts';
import type { Rect } from '../../src/core/card/geometry.ts';
import { cardPng } from '../../src/print/card-png.ts';

describe.each(['colour', 'black'] as const)('the %s card as a picture', async (variant) => {
  const png = await cardPng(variant, 0xa3f);
  const { data, info } = await sharp(png).raw().toBuffer({ resolveWithObject: true });

  const pixel = (xMm: number, yMm: number) => {
    const at = (Math.floor(yMm * 20) * info.width + Math.floor(xMm * 20)) * info.channels;
    return [data[at], data[at + 1], data[at + 2]];
  };
  const middle = ({ xMm, yMm, widthMm, heightMm }: Rect) => pixel(xMm + widthMm / 2, yMm + heightMm / 2);

  it('is 148 by 105 mm at 20 pixels to the millimetre', async () => {
    expect([info.width, info.height, info.channels]).toEqual([2960, 2100, 3]);
    expect((await sharp(png).metadata()).density).toBeCloseTo(508, 0);
  });

  it('shows ink as the grey that DeviceGray is on a screen', () => {
    for (const patch of [...NEUTRALS, SLOT]) {
      const level = Math.round(255 * (1 - patch.ink));
      expect(middle(patch), patch.id).toEqual([level, level, level]);
    }
    for (const patch of PAPER_PATCHES) expect(middle(patch), patch.id).toEqual([255, 255, 255]);
  });

  it('shows the anchors, or clear paper in their place', () => {
    for (const anchor of ANCHORS) {
      if (variant === 'colour')
        expect(middle(anchor), anchor.id).toEqual(anchor.srgb.map((level) => Math.round(255 * level)));
    }
    const coloured = colouredPixels(data);
    if (variant === 'black') expect(coloured).toBe(0);
    else expect(coloured).toBe(ANCHORS.length * 10.8 * 12 * 20 * 20);
  });

  it('has sharp, whole-pixel patch edges', () => {
    const dark = NEUTRALS.filter(({ ink }) => ink === 1);
    expect(dark.length).toBe(2);
    for (const { xMm, yMm, widthMm, heightMm } of dark) {
      const half = 0.025;
      expect(pixel(xMm + half, yMm + half)).toEqual([0, 0, 0]);
      expect(pixel(xMm - half, yMm + half)).toEqual([255, 255, 255]);
      expect(pixel(xMm + widthMm - half, yMm + heightMm - half)).toEqual([0, 0, 0]);
      expect(pixel(xMm + widthMm + half, yMm + heightMm - half)).toEqual([255, 255, 255]);
    }
  });
});

function colouredPixels(data: Buffer): number {
  let count = 0;
  for (let i = 0; i < data.length; i += 3) if (data[i] !== data[i + 1] || data[i] !== data[i + 2]) count++;
  return count;
}
