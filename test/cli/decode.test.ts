import Color from 'colorjs.io';
import sharp, { type SharpOptions } from 'sharp';
import { describe, expect, it } from 'vitest';
import { openPhoto } from '../../src/cli/decode.ts';
import type { Pixels } from '../../src/vision/pixels.ts';
import { ORIENTATIONS, SAME_KINDS, sameKind, tagged } from '../core/photo/files.ts';

/** Colours as pads have them, well inside sRGB, in squares. */
const COLOURS = ['#c8b45a', '#d98a4a', '#b04a52', '#7d5a86', '#4a7fa0', '#5a9a6e', '#e8e4da', '#3a3a3c'];
const SQUARE = 100;
const board = await sharp({
  create: { width: 4 * SQUARE, height: 3 * SQUARE, channels: 3, background: '#808080' },
})
  .composite(
    COLOURS.map((background, i) => ({
      input: { create: { width: SQUARE, height: SQUARE, channels: 3 as const, background } },
      left: (i % 4) * SQUARE,
      top: Math.floor(i / 4) * SQUARE,
    })),
  )
  .png()
  .toBuffer();

async function open(bytes: Buffer): Promise<Pixels> {
  const opened = await openPhoto(bytes);
  if (!opened.ok) throw new Error(opened.failure);
  return opened.pixels;
}

/** CIEDE2000 (colorjs.io) from what was meant to what came out, the worst of all squares' middles. */
function worst(pixels: Pixels): number {
  return Math.max(...COLOURS.map((hex, i) => new Color(hex).deltaE(colourAt(pixels, i), '2000')));
}

function colourAt({ data, width }: Pixels, square: number): Color {
  const x = ((square % 4) + 0.5) * SQUARE;
  const at = ((Math.floor(square / 4) + 0.5) * SQUARE * width + x) * 4;
  return new Color('srgb', [data[at]! / 255, data[at + 1]! / 255, data[at + 2]! / 255]);
}

describe('the command’s decoder', () => {
  it.each(SAME_KINDS)('gives the colours of %s within 1 CIEDE2000', async (kind) => {
    const { bytes } = await sameKind(kind, board);
    // Eight bits of limited-range YUV (RFC 6386) are this coarse on a plain square.
    expect(worst(await open(bytes))).toBeLessThan(kind === 'lossy.webp' ? 1.3 : 1);
  });

  it('halves a huge JPEG that lies on its side without a change of its colours', async () => {
    const huge = sharp(board).resize(6400, 4800, { kernel: 'nearest' }).withMetadata({ orientation: 6 });
    const opened = await openPhoto(await huge.jpeg({ quality: 92 }).toBuffer());
    if (!opened.ok) throw new Error(opened.failure);
    const { width, height, data } = opened.pixels;
    expect([width, height, opened.factor]).toEqual([2400, 3200, 2]);
    const lying = sharp(Buffer.from(data), { raw: { width, height, channels: 4 } }).rotate(-90);
    const small = await lying
      .resize(4 * SQUARE, 3 * SQUARE)
      .raw()
      .toBuffer();
    expect(worst({ data: new Uint8ClampedArray(small), width: 4 * SQUARE, height: 3 * SQUARE })).toBeLessThan(1);
  });

  it('would tell if a profile were left aside', async () => {
    const { bytes } = await sameKind('adobe-rgb.png', board);
    const { data, info } = await sharp(bytes, { ignoreIcc: true } as SharpOptions)
      .ensureAlpha()
      .raw()
      .toBuffer({ resolveWithObject: true });
    expect(worst({ data: new Uint8ClampedArray(data), width: info.width, height: info.height })).toBeGreaterThan(2);
  });

  it.each(ORIENTATIONS.map((_, i) => i + 1))('sets a photo of orientation %i upright', async (orientation) => {
    for (const format of ['jpeg', 'png', 'webp'] as const) {
      const pixels = await open(await tagged(board, orientation, format));
      expect([pixels.width, pixels.height]).toEqual([4 * SQUARE, 3 * SQUARE]);
      expect(worst(pixels), format).toBeLessThan(1);
    }
  });

  it('shows black behind what is transparent, as the page does', async () => {
    const clear = await sharp({ create: { width: 300, height: 300, channels: 4, background: '#ff000000' } })
      .png()
      .toBuffer();
    expect([...(await open(clear)).data.subarray(0, 4)]).toEqual([0, 0, 0, 255]);
  });

  it('refuses damaged data with a reason, not with a picture', async () => {
    const png = await sharp(board).png().toBuffer();
    const damaged = Buffer.from(png).fill(0x55, png.indexOf('IDAT') + 20, png.indexOf('IDAT') + 60);
    expect(await openPhoto(damaged)).toEqual({ ok: false, failure: 'damaged' });
  });

  it('halves a photo of 48 megapixels by area, and says so', { timeout: 120_000 }, async () => {
    const huge = await sharp(board).resize(8000, 6000, { kernel: 'nearest' }).jpeg().toBuffer();
    const opened = await openPhoto(huge);
    if (!opened.ok) throw new Error(opened.failure);
    expect([opened.pixels.width, opened.pixels.height, opened.factor]).toEqual([4000, 3000, 2]);
    const small = await sharp(Buffer.from(opened.pixels.data.buffer), {
      raw: { width: 4000, height: 3000, channels: 4 },
    })
      .resize(4 * SQUARE, 3 * SQUARE, { kernel: 'nearest' })
      .raw()
      .toBuffer();
    expect(worst({ data: new Uint8ClampedArray(small), width: 4 * SQUARE, height: 3 * SQUARE })).toBeLessThan(1);
  });
});
