import sharp from 'sharp';
import type { Pixels } from '../vision/pixels.ts';

/** Most pixels a photo may have: 50 megapixels and a little. */
const MOST_PIXELS = 52e6;

/**
 * Decodes a photo file to upright sRGB pixels, as a browser would.
 * @returns null when it isn't a picture that can be opened
 */
export async function decodePhoto(file: Uint8Array): Promise<Pixels | null> {
  if (file.length === 0) return null;
  try {
    const { data, info } = await sharp(file, { limitInputPixels: MOST_PIXELS, failOn: 'error' })
      .autoOrient()
      .toColourspace('srgb')
      .ensureAlpha()
      .raw()
      .toBuffer({ resolveWithObject: true });
    return {
      data: new Uint8ClampedArray(data.buffer, data.byteOffset, data.length),
      width: info.width,
      height: info.height,
    };
  } catch {
    return null;
  }
}
