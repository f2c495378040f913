import { pixelsByFrame } from './frame-pixels.ts';
import { averageRows, hugeFactor } from './huge.ts';
import type { Pixels } from './pixels.ts';

/** Of a huge photo, pixels taken out at once: a second copy of the whole would double the memory. */
const BAND_PIXELS = 2_000_000;

/** Room for the pixels of one photo after another of the same size. */
export class PixelRoom {
  #data = new Uint8ClampedArray(0);

  of(bytes: number): Uint8ClampedArray<ArrayBuffer> {
    if (this.#data.length !== bytes) this.#data = new Uint8ClampedArray(bytes);
    return this.#data;
  }
}

/**
 * Takes the pixels out of a bitmap, fewer of a huge one, and lets the bitmap go.
 * @param room where they go, and stay until it is used again
 */
export async function bitmapToPixels(bitmap: ImageBitmap, room = new PixelRoom()): Promise<Pixels> {
  const factor = hugeFactor(bitmap);
  const pixels = factor === 1 ? await allPixels(bitmap, room) : averagedPixels(bitmap, factor);
  bitmap.close();
  return pixels;
}

/** All at once takes half the time of bands. */
async function allPixels(bitmap: ImageBitmap, room: PixelRoom): Promise<Pixels> {
  const { width, height } = bitmap;
  const copied = await pixelsByFrame(bitmap, (bytes) => room.of(bytes));
  if (copied) return { data: copied, width, height };
  const context = contextOf(width, height);
  context.drawImage(bitmap, 0, 0);
  return { data: context.getImageData(0, 0, width, height).data, width, height };
}

function averagedPixels(bitmap: ImageBitmap, factor: number): Pixels {
  const width = Math.floor(bitmap.width / factor);
  const height = Math.floor(bitmap.height / factor);
  const data = new Uint8ClampedArray(width * height * 4);
  const most = Math.max(1, Math.floor(BAND_PIXELS / (bitmap.width * factor)));
  const context = contextOf(bitmap.width, Math.min(most, height) * factor);
  for (let y = 0; y < height; y += most) {
    const rows = Math.min(most, height - y);
    // What is transparent would show the band before.
    context.fillRect(0, 0, bitmap.width, rows * factor);
    context.drawImage(bitmap, 0, -y * factor);
    const band = context.getImageData(0, 0, bitmap.width, rows * factor).data;
    averageRows(band, bitmap.width, factor, data.subarray(y * width * 4, (y + rows) * width * 4), width);
  }
  return { data, width, height };
}

function contextOf(width: number, height: number): OffscreenCanvasRenderingContext2D {
  const context = new OffscreenCanvas(width, height).getContext('2d', { willReadFrequently: true, alpha: false });
  if (!context) throw new Error('no room for a picture of this size');
  return context;
}
