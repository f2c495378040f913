import { averageRows, hugeFactor } from './huge.ts';
import type { Pixels } from './pixels.ts';

/** Pixels taken out at once: a second copy of the whole photo would double the memory. */
const BAND_PIXELS = 2_000_000;

/** Takes the pixels out of a bitmap, fewer of a huge one, and lets the bitmap go. */
export function bitmapToPixels(bitmap: ImageBitmap): Pixels {
  const factor = hugeFactor(bitmap);
  const width = Math.floor(bitmap.width / factor);
  const height = Math.floor(bitmap.height / factor);
  const data = new Uint8ClampedArray(width * height * 4);
  const most = Math.max(1, Math.floor(BAND_PIXELS / (bitmap.width * factor)));
  const context = new OffscreenCanvas(bitmap.width, Math.min(most, height) * factor).getContext('2d', {
    willReadFrequently: true,
    alpha: false,
  });
  if (!context) throw new Error('no room for a picture of this size');
  for (let y = 0; y < height; y += most) {
    const rows = Math.min(most, height - y);
    const band = bandOf(context, bitmap, y * factor, rows * factor);
    const to = data.subarray(y * width * 4, (y + rows) * width * 4);
    if (factor === 1) to.set(band);
    else averageRows(band, bitmap.width, factor, to, width);
  }
  bitmap.close();
  return { data, width, height };
}

function bandOf(
  context: OffscreenCanvasRenderingContext2D,
  bitmap: ImageBitmap,
  from: number,
  rows: number,
): Uint8ClampedArray {
  // What is transparent would show the band before.
  context.fillRect(0, 0, bitmap.width, rows);
  context.drawImage(bitmap, 0, -from);
  return context.getImageData(0, 0, bitmap.width, rows).data;
}
