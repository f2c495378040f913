/** Pixels by way of video frames: much the same as a canvas gives, in a third of its time or less. */

import type { Pixels, Planes } from './pixels.ts';

/** A colour whose channels tell their order. */
const TRIAL = [200, 100, 50, 255];
const TRIAL_PX = 2;

let trying: Promise<boolean> | null = null;

/**
 * @param roomFor gives room for so many bytes; not asked where the frame is of no use
 * @returns four bytes a pixel, RGBA; null where the browser can't, or the bitmap is see-through
 */
export async function pixelsByFrame(bitmap: ImageBitmap, roomFor: RoomFor): Promise<Uint8ClampedArray | null> {
  trying ??= works().catch(() => false);
  if (!(await trying)) return null;
  // One with an alpha channel would keep its colours as if nothing were behind them.
  return copy(bitmap, roomFor, (format) => format.endsWith('X')).catch(() => null);
}

/**
 * @param frame as a decoder or a camera gives it
 * @returns in sRGB, not turned; null where the browser can't
 */
export function pixelsOfFrame(frame: VideoFrame, roomFor: RoomFor): Promise<Pixels | null> {
  return copyOut(frame, roomFor).catch(() => null);
}

/** Halvings of the planes of colour, along a row and down. */
const HALVINGS: Partial<Record<string, Pick<Planes, 'across' | 'down'>>> = {
  I420: { across: 1, down: 1 },
  I422: { across: 1, down: 0 },
  I444: { across: 0, down: 0 },
};

/** The planes of a frame as they are: less to copy. @returns not turned; null where they aren't those of a plain JPEG */
export async function planesOfFrame(frame: VideoFrame, roomFor: RoomFor): Promise<Planes | null> {
  const halvings = HALVINGS[frame.format ?? ''];
  const { primaries, transfer, matrix, fullRange } = frame.colorSpace;
  // Another profile is brought to sRGB with the pixels; a camera's frame isn't full range.
  const isPlain = primaries === 'bt709' && transfer === 'iec61966-2-1' && matrix === 'smpte170m' && fullRange === true;
  if (!halvings || !isPlain) return null;
  const { codedWidth: width, codedHeight: height } = frame;
  const bytes = roomFor(frame.allocationSize());
  const layout = await frame.copyTo(bytes).catch(() => []);
  const [first, second, third] = layout;
  const across = (width + halvings.across) >> halvings.across;
  const isTight = first?.stride === width && second?.stride === across && third?.stride === across;
  if (!isTight) return null;
  const plane = ({ offset }: PlaneLayout, end: number) =>
    new Uint8Array(bytes.buffer, bytes.byteOffset + offset, end - offset);
  return {
    luma: plane(first, second.offset),
    cb: plane(second, third.offset),
    cr: plane(third, bytes.length),
    ...halvings,
    width,
    height,
  };
}

type RoomFor = (bytes: number) => Uint8ClampedArray<ArrayBuffer>;

/** Older browsers leave the channels in the frame's own order, without a word. */
async function works(): Promise<boolean> {
  if (!('VideoFrame' in globalThis)) return false;
  const pixels = Uint8ClampedArray.from({ length: 4 * TRIAL_PX * TRIAL_PX }, (_, i) => TRIAL[i % 4]!);
  const bitmap = await createImageBitmap(new ImageData(pixels, TRIAL_PX, TRIAL_PX));
  const found = await copy(
    bitmap,
    (bytes) => new Uint8ClampedArray(bytes),
    () => true,
  );
  bitmap.close();
  return found?.every((level, i) => level === pixels[i]) ?? false;
}

async function copy(
  bitmap: ImageBitmap,
  roomFor: RoomFor,
  isFit: (format: string) => boolean,
): Promise<Uint8ClampedArray | null> {
  const frame = new VideoFrame(bitmap, { timestamp: 0 });
  try {
    if (!frame.format || !isFit(frame.format)) return null;
    const copied = await copyOut(frame, roomFor);
    return copied && copied.width === bitmap.width && copied.height === bitmap.height ? copied.data : null;
  } finally {
    frame.close();
  }
}

async function copyOut(frame: VideoFrame, roomFor: RoomFor): Promise<Pixels | null> {
  // What a camera gives may be padded to whole blocks.
  const { width, height } = frame.visibleRect ?? { width: frame.codedWidth, height: frame.codedHeight };
  const data = roomFor(4 * width * height);
  const options = { format: 'RGBA', colorSpace: 'srgb' } as VideoFrameCopyToOptions;
  const planes = await frame.copyTo(data, options);
  // Where the format that was asked for isn't known, the planes of the frame's own come.
  return planes.length === 1 && planes[0]!.stride === 4 * width ? { data, width, height } : null;
}
