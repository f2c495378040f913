import sharp from 'sharp';
import type { PhotoFailure } from '../core/photo/failure.ts';
import { judgeFile, MOST_PIXELS } from '../core/photo/judge-file.ts';
import { hugeFactor } from '../core/photo/huge.ts';
import { shrinkHuge } from '../vision/huge.ts';
import type { Pixels } from '../vision/pixels.ts';

export type Opened =
  /** `factor`: a place in the photo is so many times a place in the pixels. */
  | { readonly ok: true; readonly pixels: Pixels; readonly factor: number }
  | { readonly ok: false; readonly failure: PhotoFailure };

/** Decodes a photo file to upright sRGB pixels, as a browser would. */
export async function openPhoto(file: Uint8Array): Promise<Opened> {
  const judged = await judgeFile({
    size: file.length,
    read: (from, to) => Promise.resolve(file.subarray(from, to)),
  });
  if (!judged.ok) return judged;
  try {
    const { data, info } = await sharp(file, { limitInputPixels: MOST_PIXELS, failOn: 'error' })
      .autoOrient()
      // Otherwise pictures of 16 bit come out in Display P3.
      .pipelineColourspace('srgb')
      .flatten({ background: '#000' })
      .toColourspace('srgb')
      .ensureAlpha()
      .raw()
      .toBuffer({ resolveWithObject: true });
    const { width, height } = info;
    const photo = { data: new Uint8ClampedArray(data.buffer, data.byteOffset, data.length), width, height };
    return { ok: true, pixels: shrinkHuge(photo), factor: hugeFactor(photo) };
  } catch {
    const { kind } = judged.header;
    return { ok: false, failure: kind === 'heic' || kind === 'avif' ? kind : 'damaged' };
  }
}

/** @returns null when it isn't a photo that can be opened */
export async function decodePhoto(file: Uint8Array): Promise<Pixels | null> {
  const opened = await openPhoto(file);
  return opened.ok ? opened.pixels : null;
}
