/** From what a browser decodes a photo to, to its pixels. */
import { hugeFactor } from '../core/photo/huge.ts';
import { pixelsByFrame, pixelsOfFrame, planesOfFrame } from './frame-pixels.ts';
import { averageRows } from './huge.ts';
import type { Photo, Pixels } from './pixels.ts';
import { isUpright, type Turn, turned, turnedPlanes } from './turn.ts';

/** A decoded photo. A bitmap is upright; a frame tells how it is to be turned. */
export type Picture = ImageBitmap | VideoFrame;

/** Of a huge photo, pixels taken out at once: a second copy of the whole would double the memory. */
const BAND_PIXELS = 2_000_000;

/** Room for the pixels of one photo after another. */
export class PixelRoom {
  #data = new Uint8ClampedArray(0);
  #beside: PixelRoom | null = null;

  of(bytes: number): Uint8ClampedArray<ArrayBuffer> {
    if (this.#data.length < bytes) this.#data = new Uint8ClampedArray(bytes);
    return this.#data.subarray(0, bytes);
  }

  /** A second room, for what is made of what lies in the first. */
  get beside(): PixelRoom {
    return (this.#beside ??= new PixelRoom());
  }
}

/** Upright, px. */
function sizeOf(picture: Picture): { width: number; height: number } {
  return isFrame(picture)
    ? { width: picture.displayWidth, height: picture.displayHeight }
    : { width: picture.width, height: picture.height };
}

/**
 * Takes the pixels out of a picture, upright, fewer of a huge one, and lets the picture go.
 * @param room where they go, and stay until it is used again
 */
export async function pixelsOf(picture: Picture, room = new PixelRoom()): Promise<Pixels> {
  try {
    const factor = hugeFactor(sizeOf(picture));
    return factor === 1 ? await allPixels(picture, room) : averagedPixels(picture, factor);
  } finally {
    picture.close();
  }
}

/** The same, brightness and colour apart where the picture has them so: less to copy, and to look through. */
export async function photoOf(picture: Picture, room = new PixelRoom()): Promise<Photo> {
  if (!isFrame(picture) || hugeFactor(sizeOf(picture)) > 1) return pixelsOf(picture, room);
  // A browser that can't hand out the planes may still hand out pixels.
  const planes = await planesOfFrame(picture, (bytes) => room.of(bytes)).catch(() => null);
  if (!planes) return pixelsOf(picture, room);
  const turn = turnOf(picture);
  picture.close();
  return isUpright(turn) ? planes : turnedPlanes(planes, turn);
}

function isFrame(picture: Picture): picture is VideoFrame {
  return 'displayWidth' in picture;
}

/** All at once takes half the time of bands. */
async function allPixels(picture: Picture, room: PixelRoom): Promise<Pixels> {
  const roomFor = (bytes: number) => room.of(bytes);
  if (isFrame(picture)) {
    const copied = await pixelsOfFrame(picture, roomFor);
    if (copied) return upright(copied, turnOf(picture), room);
  }
  const { width, height } = sizeOf(picture);
  const copied = isFrame(picture) ? null : await pixelsByFrame(picture, roomFor);
  if (copied) return { data: copied, width, height };
  const context = contextOf(width, height);
  context.drawImage(picture, 0, 0);
  return { data: context.getImageData(0, 0, width, height).data, width, height };
}

function upright(pixels: Pixels, turn: Turn, room: PixelRoom): Pixels {
  return isUpright(turn) ? pixels : turned(pixels, turn, room.beside.of(pixels.data.length));
}

/** The turn is part of WebCodecs, but not yet of its type declarations. */
function turnOf(frame: VideoFrame): Turn {
  const { rotation = 0, flip = false } = frame as Partial<Turn>;
  return { rotation, flip };
}

function averagedPixels(picture: Picture, factor: number): Pixels {
  const size = sizeOf(picture);
  const width = Math.floor(size.width / factor);
  const height = Math.floor(size.height / factor);
  const data = new Uint8ClampedArray(width * height * 4);
  const most = Math.max(1, Math.floor(BAND_PIXELS / (size.width * factor)));
  const context = contextOf(size.width, Math.min(most, height) * factor);
  for (let y = 0; y < height; y += most) {
    const rows = Math.min(most, height - y);
    // What is transparent would show the band before.
    context.fillRect(0, 0, size.width, rows * factor);
    context.drawImage(picture, 0, -y * factor);
    const band = context.getImageData(0, 0, size.width, rows * factor).data;
    averageRows(band, size.width, factor, data.subarray(y * width * 4, (y + rows) * width * 4), width);
  }
  return { data, width, height };
}

function contextOf(width: number, height: number): OffscreenCanvasRenderingContext2D {
  const context = new OffscreenCanvas(width, height).getContext('2d', { willReadFrequently: true, alpha: false });
  if (!context) throw new Error('no room for a picture of this size');
  return context;
}
