/** Grey pictures: the small one that is searched, and the brightness of single places of the photo. */
import type { Photo, Planes } from '../pixels.ts';

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
  const words = asWords(photo.data);
  if (factor === 1) return { data: greys(words), width: photo.width, height: photo.height, factor };
  const width = Math.floor(photo.width / factor);
  const height = Math.floor(photo.height / factor);
  if (factor === 2) return { data: halved(words, photo.width, width, height), width, height, factor };
  const data = new Uint8Array(width * height);
  const rows = Math.min(factor, MAX_ROWS);
  const perPixel = 1 / (4 * factor * rows);
  for (let y = 0, to = 0; y < height; y++) {
    const [first, second, third] = rowsOf(y, factor, rows, photo.width);
    for (let from = 0; from < width * factor; to++) {
      // Red and blue are added up together, in the two halves of one number.
      let both = 0;
      let green = 0;
      for (const end = from + factor; from < end; from++) {
        const one = words[first + from]!;
        const two = words[second + from]!;
        both += (one & 0xff00ff) + (two & 0xff00ff);
        green += ((one >>> 8) & 0xff) + ((two >>> 8) & 0xff);
        if (third < 0) continue;
        const three = words[third + from]!;
        both += three & 0xff00ff;
        green += (three >>> 8) & 0xff;
      }
      data[to] = ((both & 0xffff) + (both >>> 16) + 2 * green) * perPixel + 0.5;
    }
  }
  return { data, width, height, factor };
}

/** Blocks of two times two pixels, written out because it takes half the time so. */
function halved(words: Int32Array, stride: number, width: number, height: number): Uint8Array {
  const data = new Uint8Array(width * height);
  for (let y = 0, to = 0; y < height; y++) {
    for (let from = 2 * y * stride, end = from + 2 * width; from < end; from += 2) {
      const a = words[from]!;
      const b = words[from + 1]!;
      const c = words[from + stride]!;
      const d = words[from + stride + 1]!;
      const both = (a & 0xff00ff) + (b & 0xff00ff) + (c & 0xff00ff) + (d & 0xff00ff);
      const green = ((a >>> 8) & 0xff) + ((b >>> 8) & 0xff) + ((c >>> 8) & 0xff) + ((d >>> 8) & 0xff);
      data[to++] = ((both & 0xffff) + (both >>> 16) + 2 * green + 8) >> 4;
    }
  }
  return data;
}

/** Where the rows begin that are read of the blocks of a row; the third is -1 where there are two. */
function rowsOf(y: number, factor: number, rows: number, width: number): [number, number, number] {
  const row = (i: number) => (y * factor + Math.floor(((i + 0.5) * factor) / rows)) * width;
  return [row(0), row(1), rows === 3 ? row(2) : -1];
}

function shrinkLuma({ luma, width: photoWidth, height: photoHeight }: Planes, factor: number): Grey {
  if (factor === 1) return { data: luma, width: photoWidth, height: photoHeight, factor };
  const width = Math.floor(photoWidth / factor);
  const height = Math.floor(photoHeight / factor);
  const data = new Uint8Array(width * height);
  const rows = Math.min(factor, MAX_ROWS);
  // Of wide blocks, every other pixel of a row.
  const step = factor >= 4 ? 2 : 1;
  const perPixel = 1 / (Math.ceil(factor / step) * rows);
  for (let y = 0, to = 0; y < height; y++) {
    const [first, second, third] = rowsOf(y, factor, rows, photoWidth);
    for (let left = 0; left < width * factor; left += factor) {
      let sum = 0;
      for (let from = left; from < left + factor; from += step) {
        sum += luma[first + from]! + luma[second + from]!;
        if (third >= 0) sum += luma[third + from]!;
      }
      data[to++] = sum * perPixel + 0.5;
    }
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
export function asWords(data: Uint8ClampedArray): Int32Array {
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
