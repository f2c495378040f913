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

const newRoom = (bytes: number): Uint8Array => new Uint8Array(bytes);

/**
 * Averages blocks of `factor` x `factor` pixels; green counts twice.
 * @param roomFor gives room for so many bytes; not asked where the photo is grey already
 */
export function shrinkToGrey(photo: Photo, factor: number, roomFor = newRoom): Grey {
  if (photo.luma) return shrinkLuma(photo, factor, roomFor);
  const words = asWords(photo.data);
  if (factor === 1)
    return { data: greys(words, roomFor(words.length)), width: photo.width, height: photo.height, factor };
  const width = Math.floor(photo.width / factor);
  const height = Math.floor(photo.height / factor);
  if (factor === 2) return halved(words, photo.width, { data: roomFor(width * height), width, height, factor });
  const data = roomFor(width * height);
  if (factor === 3) return thirded(words, photo.width, { data, width, height, factor });
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
function halved(words: Int32Array, stride: number, to: Grey): Grey {
  const { data, width, height } = to;
  for (let y = 0, at = 0; y < height; y++) {
    for (let from = 2 * y * stride, end = from + 2 * width; from < end; from += 2) {
      const a = words[from]!;
      const b = words[from + 1]!;
      const c = words[from + stride]!;
      const d = words[from + stride + 1]!;
      const both = (a & 0xff00ff) + (b & 0xff00ff) + (c & 0xff00ff) + (d & 0xff00ff);
      const green = ((a >>> 8) & 0xff) + ((b >>> 8) & 0xff) + ((c >>> 8) & 0xff) + ((d >>> 8) & 0xff);
      data[at++] = ((both & 0xffff) + (both >>> 16) + 2 * green + 8) >> 4;
    }
  }
  return to;
}

/** Blocks of three times three pixels: what a photo of two megapixels is searched by. */
function thirded(words: Int32Array, stride: number, to: Grey): Grey {
  const { data, width, height } = to;
  for (let y = 0, at = 0; y < height; y++) {
    let top = 3 * y * stride;
    for (const end = at + width; at < end; at++, top += 3) {
      const middle = top + stride;
      const bottom = middle + stride;
      const a = words[top]!;
      const b = words[top + 1]!;
      const c = words[top + 2]!;
      const d = words[middle]!;
      const e = words[middle + 1]!;
      const f = words[middle + 2]!;
      const g = words[bottom]!;
      const h = words[bottom + 1]!;
      const i = words[bottom + 2]!;
      const above = (a & 0xff00ff) + (b & 0xff00ff) + (c & 0xff00ff) + (d & 0xff00ff);
      const both = above + (e & 0xff00ff) + (f & 0xff00ff) + (g & 0xff00ff) + (h & 0xff00ff) + (i & 0xff00ff);
      const first = ((a >>> 8) & 0xff) + ((b >>> 8) & 0xff) + ((c >>> 8) & 0xff) + ((d >>> 8) & 0xff);
      const last = ((f >>> 8) & 0xff) + ((g >>> 8) & 0xff) + ((h >>> 8) & 0xff) + ((i >>> 8) & 0xff);
      data[at] = ((both & 0xffff) + (both >>> 16) + 2 * (first + ((e >>> 8) & 0xff) + last)) * (1 / 36) + 0.5;
    }
  }
  return to;
}

/** Where the rows begin that are read of the blocks of a row; the third is -1 where there are two. */
function rowsOf(y: number, factor: number, rows: number, width: number): [number, number, number] {
  const row = (i: number) => (y * factor + Math.floor(((i + 0.5) * factor) / rows)) * width;
  return [row(0), row(1), rows === 3 ? row(2) : -1];
}

function shrinkLuma({ luma, width: photoWidth, height: photoHeight }: Planes, factor: number, roomFor = newRoom): Grey {
  if (factor === 1) return { data: luma, width: photoWidth, height: photoHeight, factor };
  const width = Math.floor(photoWidth / factor);
  const height = Math.floor(photoHeight / factor);
  const data = roomFor(width * height);
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

function greys(words: Int32Array, data: Uint8Array): Uint8Array {
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
  brightnessAlong(photo, { x, y, dx: 0, dy: 0 }, ONE_PLACE, 0, 1);
  return ONE_PLACE[0]!;
}

const ONE_PLACE = new Float64Array(1);

/** Places in a photo, px, one step after the other. */
export interface Steps {
  readonly x: number;
  readonly y: number;
  readonly dx: number;
  readonly dy: number;
}

/** Writes the brightness (0-255) at each of `count` places, from `at` on. */
export function brightnessAlong(photo: Photo, steps: Steps, to: Float64Array, at: number, count: number): void {
  if (photo.luma) lumaAlong(photo, steps, to, at, count);
  else colourAlong(asWords(photo.data), photo, steps, to, at, count);
}

function lumaAlong(
  { luma, width, height }: Planes,
  { x, y, dx, dy }: Steps,
  to: Float64Array,
  at: number,
  count: number,
) {
  const lastX = width - 1.001;
  const lastY = height - 1.001;
  for (let i = 0; i < count; i++) {
    const cx = Math.min(Math.max(x + i * dx - 0.5, 0), lastX);
    const cy = Math.min(Math.max(y + i * dy - 0.5, 0), lastY);
    const column = cx | 0;
    const row = cy | 0;
    const fx = cx - column;
    const fy = cy - row;
    const a = row * width + column;
    const left = (1 - fy) * luma[a]! + fy * luma[a + width]!;
    const right = (1 - fy) * luma[a + 1]! + fy * luma[a + width + 1]!;
    to[at + i] = (1 - fx) * left + fx * right;
  }
}

/** Green counts twice. */
function colourAlong(
  words: Int32Array,
  { width, height }: Pixels,
  { x, y, dx, dy }: Steps,
  to: Float64Array,
  at: number,
  count: number,
) {
  const lastX = width - 1.001;
  const lastY = height - 1.001;
  for (let i = 0; i < count; i++) {
    const cx = Math.min(Math.max(x + i * dx - 0.5, 0), lastX);
    const cy = Math.min(Math.max(y + i * dy - 0.5, 0), lastY);
    const column = cx | 0;
    const row = cy | 0;
    const fx = cx - column;
    const fy = cy - row;
    const a = row * width + column;
    const left = (1 - fy) * greyOfWord(words[a]!) + fy * greyOfWord(words[a + width]!);
    const right = (1 - fy) * greyOfWord(words[a + 1]!) + fy * greyOfWord(words[a + width + 1]!);
    to[at + i] = ((1 - fx) * left + fx * right) * 0.25;
  }
}

/** In quarters of a level. */
function greyOfWord(word: number): number {
  return (word & 0xff) + ((word >>> 16) & 0xff) + 2 * ((word >>> 8) & 0xff);
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
