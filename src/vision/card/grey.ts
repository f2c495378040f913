/** Grey pictures: the small one that is searched, and the brightness of single places of the photo. */
import type { Photo, Pixels, Planes } from '../pixels.ts';

/** One byte a pixel, row by row. A place (x, y) here is (x, y) * `factor` in the photo. */
export interface Grey {
  readonly data: Uint8Array;
  readonly width: number;
  readonly height: number;
  readonly factor: number;
}

/** Rows read of each block, at most: more would only cost time. */
const MAX_ROWS = 3;

/** The whole factor that brings the photo's long side nearest to a length. */
export function shrinkFactor({ width, height }: Photo, longSidePx: number): number {
  const nearest = Math.round(Math.max(width, height) / longSidePx);
  return Math.max(1, Math.min(nearest, width, height));
}

/** Averages blocks of `factor` x `factor` pixels; green counts twice. */
export function shrinkToGrey(photo: Photo, factor: number): Grey {
  if (photo.luma) return shrinkLuma(photo, factor);
  const words = asWords(photo);
  if (factor === 1) return { data: greys(words), width: photo.width, height: photo.height, factor };
  const width = Math.floor(photo.width / factor);
  const height = Math.floor(photo.height / factor);
  const data = new Uint8Array(width * height);
  const redBlue = new Uint32Array(width);
  const green = new Uint32Array(width);
  const rows = Math.min(factor, MAX_ROWS);
  const perPixel = 1 / (4 * factor * rows);
  for (let y = 0; y < height; y++) {
    redBlue.fill(0);
    green.fill(0);
    for (let row = 0; row < rows; row++) {
      const line = y * factor + Math.floor(((row + 0.5) * factor) / rows);
      let from = line * photo.width;
      for (let x = 0; x < width; x++) {
        let both = 0;
        let middle = 0;
        for (let i = 0; i < factor; i++) {
          const word = words[from++]!;
          both += word & 0xff00ff;
          middle += (word >>> 8) & 0xff;
        }
        redBlue[x]! += both;
        green[x]! += middle;
      }
    }
    const to = y * width;
    for (let x = 0; x < width; x++) {
      const both = redBlue[x]!;
      data[to + x] = ((both & 0xffff) + (both >>> 16) + 2 * green[x]!) * perPixel + 0.5;
    }
  }
  return { data, width, height, factor };
}

function shrinkLuma({ luma, width: photoWidth, height: photoHeight }: Planes, factor: number): Grey {
  if (factor === 1) return { data: luma, width: photoWidth, height: photoHeight, factor };
  const width = Math.floor(photoWidth / factor);
  const height = Math.floor(photoHeight / factor);
  const data = new Uint8Array(width * height);
  const sums = new Uint32Array(width);
  const rows = Math.min(factor, MAX_ROWS);
  // Of wide blocks, every other pixel of a row.
  const step = factor >= 4 ? 2 : 1;
  const perPixel = 1 / (Math.ceil(factor / step) * rows);
  for (let y = 0; y < height; y++) {
    sums.fill(0);
    for (let row = 0; row < rows; row++) {
      let from = (y * factor + Math.floor(((row + 0.5) * factor) / rows)) * photoWidth;
      for (let x = 0; x < width; x++) {
        let sum = 0;
        for (let i = 0; i < factor; i += step) sum += luma[from + i]!;
        sums[x]! += sum;
        from += factor;
      }
    }
    for (let x = 0; x < width; x++) data[y * width + x] = sums[x]! * perPixel + 0.5;
  }
  return { data, width, height, factor };
}

function greys(words: Int32Array): Uint8Array {
  const data = new Uint8Array(words.length);
  for (let i = 0; i < data.length; i++) {
    const word = words[i]!;
    data[i] = ((word & 0xff) + ((word >>> 16) & 0xff) + 2 * ((word >>> 8) & 0xff) + 2) >> 2;
  }
  return data;
}

/** RGBA as one number a pixel, red in the lowest byte; signed, because engines count faster so. */
export function asWords({ data }: Pixels): Int32Array {
  const aligned = data.byteOffset % 4 === 0 ? data : data.slice();
  return new Int32Array(aligned.buffer, aligned.byteOffset, aligned.length >> 2);
}

/** Brightness (0-255) at any place of the photo, between pixel centres by proportion. */
export function brightnessAt(photo: Photo, x: number, y: number): number {
  const { width, height } = photo;
  const cx = Math.min(Math.max(x - 0.5, 0), width - 1.001);
  const cy = Math.min(Math.max(y - 0.5, 0), height - 1.001);
  const column = Math.floor(cx);
  const row = Math.floor(cy);
  const fx = cx - column;
  const fy = cy - row;
  const a = row * width + column;
  const b = a + width;
  const left = (1 - fy) * greyOfPixel(photo, a) + fy * greyOfPixel(photo, b);
  const right = (1 - fy) * greyOfPixel(photo, a + 1) + fy * greyOfPixel(photo, b + 1);
  return (1 - fx) * left + fx * right;
}

/** Of the pixel with this number, row by row; of RGBA, green counts twice. */
export function greyOfPixel(photo: Photo, index: number): number {
  if (photo.luma) return photo.luma[index]!;
  const { data } = photo;
  const at = 4 * index;
  return (data[at]! + 2 * data[at + 1]! + data[at + 2]!) * 0.25;
}

/** Brightness of the pixel at a place, in the grey picture's own coordinates. */
export function greyAt({ data, width, height }: Grey, x: number, y: number): number {
  const column = Math.min(Math.max(Math.floor(x), 0), width - 1);
  const row = Math.min(Math.max(Math.floor(y), 0), height - 1);
  return data[row * width + column]!;
}
