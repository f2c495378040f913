/** A bitmap's pixels by way of a video frame: the same as a canvas gives, in a third of its time. */

/** A colour whose channels tell their order. */
const TRIAL = [200, 100, 50, 255];
const TRIAL_PX = 2;

let trying: Promise<boolean> | null = null;

/**
 * @param into room for four bytes a pixel, RGBA
 * @returns false, and `into` as it was or spoilt, where the browser can't, or the bitmap is see-through
 */
export async function copyByFrame(bitmap: ImageBitmap, into: Uint8ClampedArray<ArrayBuffer>): Promise<boolean> {
  trying ??= works().catch(() => false);
  if (!(await trying)) return false;
  // One with an alpha channel would keep its colours as if nothing were behind them.
  return copy(bitmap, into, (format) => format.endsWith('X')).catch(() => false);
}

/** Older browsers leave the channels in the frame's own order, without a word. */
async function works(): Promise<boolean> {
  if (!('VideoFrame' in globalThis)) return false;
  const pixels = Uint8ClampedArray.from({ length: 4 * TRIAL_PX * TRIAL_PX }, (_, i) => TRIAL[i % 4]!);
  const bitmap = await createImageBitmap(new ImageData(pixels, TRIAL_PX, TRIAL_PX));
  const found = new Uint8ClampedArray(pixels.length);
  const isCopied = await copy(bitmap, found, () => true);
  bitmap.close();
  return isCopied && found.every((level, i) => level === pixels[i]);
}

async function copy(
  bitmap: ImageBitmap,
  into: Uint8ClampedArray<ArrayBuffer>,
  isFit: (format: string) => boolean,
): Promise<boolean> {
  const frame = new VideoFrame(bitmap, { timestamp: 0 });
  try {
    const { codedWidth, codedHeight, format } = frame;
    if (!format || !isFit(format) || codedWidth !== bitmap.width || codedHeight !== bitmap.height) return false;
    const options = { format: 'RGBA', colorSpace: 'srgb' } as VideoFrameCopyToOptions;
    const [plane] = await frame.copyTo(into, options);
    return plane?.stride === 4 * codedWidth;
  } finally {
    frame.close();
  }
}
