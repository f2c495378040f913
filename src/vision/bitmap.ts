import type { Pixels } from './pixels.ts';

/** Takes the pixels out of a bitmap and lets the bitmap go. */
export function bitmapToPixels(bitmap: ImageBitmap): Pixels {
  const { width, height } = bitmap;
  const context = new OffscreenCanvas(width, height).getContext('2d', { willReadFrequently: true, alpha: false });
  if (!context) throw new Error('no room for a picture of this size');
  context.drawImage(bitmap, 0, 0);
  bitmap.close();
  return { data: context.getImageData(0, 0, width, height).data, width, height };
}
