/**
 * JPEG by way of WebCodecs: brightness and colour stay apart, as the file has them, which takes a third of the time of a
 * bitmap and less than half of its memory.
 */
import type { PhotoHeader } from '../core/photo/header.ts';
import { hugeFactor } from '../core/photo/huge.ts';

/** Brightness and two planes of colour, eight bits each. */
const PLANAR = /^I4(20|22|44)$/;

/**
 * The photo as a frame that tells how it is to be turned, half as wide or less where it is huge.
 * @param photo a JPEG; where it is bytes, they are given away
 * @returns null where the browser can't, or doesn't say all that is to be known about the frame
 */
export async function frameOf(
  photo: ArrayBuffer | Blob,
  header: PhotoHeader,
  signal: AbortSignal,
): Promise<VideoFrame | null> {
  const { width, height } = header;
  const factor = hugeFactor(header);
  const frame = await decodeFrame(
    photo,
    factor > 1 ? { width: width / factor, height: height / factor } : null,
    signal,
  );
  if (!frame) return null;
  const isAsAsked =
    factor > 1
      ? frame.codedWidth < width && frame.codedHeight < height
      : PLANAR.test(frame.format ?? '') && frame.codedWidth === width && frame.codedHeight === height;
  if (isAsAsked && 'rotation' in frame) return frame;
  frame.close();
  return null;
}

/**
 * A JPEG about as long as that, upright, to be looked at; null where the browser can't. It is a bitmap because Chromium
 * (156) never gives back the shared memory through which it draws a frame to a canvas: as much as the picture, each time.
 * @param longSidePx at least
 */
export async function smallBitmap(photo: Blob, longSidePx: number): Promise<ImageBitmap | null> {
  const size = { width: longSidePx, height: longSidePx };
  try {
    const frame = await decodeFrame(photo, size, new AbortController().signal);
    if (!frame) return null;
    return await createImageBitmap(frame).finally(() => frame.close());
  } catch {
    return null;
  }
}

async function decodeFrame(
  photo: ArrayBuffer | Blob,
  least: { width: number; height: number } | null,
  signal: AbortSignal,
): Promise<VideoFrame | null> {
  if (!('ImageDecoder' in globalThis)) return null;
  const data = photo instanceof Blob ? await photo.arrayBuffer() : photo;
  signal.throwIfAborted();
  const desired = least && { desiredWidth: Math.floor(least.width), desiredHeight: Math.floor(least.height) };
  const decoder = new ImageDecoder({ data, type: 'image/jpeg', transfer: [data], ...desired });
  // Closing it ends the decoding.
  signal.addEventListener('abort', () => decoder.close());
  try {
    const { image, complete } = await decoder.decode();
    if (complete) return image;
    image.close();
    return null;
  } finally {
    decoder.close();
  }
}
