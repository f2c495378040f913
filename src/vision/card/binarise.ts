/** Ink from paper: which pixels of a grey picture are dark for their surroundings. */
import { smoothed } from './smooth.ts';
import type { Grey } from './grey.ts';

export type Binarisation =
  | {
      readonly method: 'local';
      /** Side of the window whose mean is compared with, as a share of the picture's long side. */
      readonly window: number;
      /** How much darker than that mean ink is, levels. */
      readonly offset: number;
      /** Gaussian against noise, px; 0 for none. */
      readonly smoothPx: number;
    }
  /** One threshold for all (Otsu 1979). */
  | { readonly method: 'global' };

/** Of one picture after another: megabytes each time would keep the garbage collector busy. */
let room = new Uint8Array(0);

/** @returns 1 where ink may be, else 0, row by row; good until the next picture's is asked for */
export function binarise(grey: Grey, by: Binarisation): Uint8Array {
  if (by.method === 'global') {
    const threshold = otsuThreshold(grey.data);
    const ink = roomFor(grey.data.length);
    for (let i = 0; i < ink.length; i++) ink[i] = grey.data[i]! > threshold ? 0 : 1;
    return ink;
  }
  const { width, height } = grey;
  const data = by.smoothPx > 0 ? smoothed(grey, by.smoothPx) : grey.data;
  const reach = Math.max(1, Math.round((by.window * Math.max(width, height)) / 2));
  return darkerThanAround(data, width, height, reach, by.offset);
}

function roomFor(pixels: number): Uint8Array {
  if (room.length < pixels) room = new Uint8Array(pixels);
  return room.subarray(0, pixels);
}

/**
 * Compares each pixel with the mean, rounded to a level, of the square that reaches so far to each side of it; beyond the
 * picture its border repeats. The sums slide along, so that the square's size costs nothing.
 */
function darkerThanAround(data: Uint8Array, width: number, height: number, reach: number, offset: number): Uint8Array {
  const area = (2 * reach + 1) ** 2;
  // Twice the sum, since the mean is rounded at half a level; an odd area never gives just a half.
  const least = Int32Array.from({ length: 256 }, (_, level) => area * (2 * (level + offset) - 1));
  /** Sums of columns, those left and right of the picture included. */
  const columns = new Int32Array(width + 2 * reach + 1);
  const lastRow = height - 1;
  for (let row = -reach - 1; row < reach; row++) addRow(columns, data, inside(row, lastRow) * width, width, reach + 1);
  const ink = roomFor(width * height);
  for (let y = 0, at = 0; y < height; y++) {
    const [leaving, coming] = [inside(y - reach - 1, lastRow) * width, inside(y + reach, lastRow) * width];
    for (let x = 0; x < width; x++) columns[x + reach + 1]! += data[coming + x]! - data[leaving + x]!;
    columns.fill(columns[reach + 1]!, 0, reach + 1);
    columns.fill(columns[reach + width]!, reach + width + 1);
    let sum = 0;
    for (let x = 0; x <= 2 * reach; x++) sum += columns[x]!;
    for (let x = 0; x < width; x++, at++) {
      sum += columns[x + 2 * reach + 1]! - columns[x]!;
      ink[at] = 2 * sum > least[data[at]!]! ? 1 : 0;
    }
  }
  return ink;
}

function addRow(columns: Int32Array, data: Uint8Array, from: number, width: number, shift: number): void {
  for (let x = 0; x < width; x++) columns[x + shift]! += data[from + x]!;
}

function inside(index: number, last: number): number {
  return index < 0 ? 0 : index > last ? last : index;
}

/**
 * The level that parts the picture into two classes with the largest variance between them.
 * N. Otsu, A threshold selection method from gray-level histograms, IEEE Trans. SMC 9:62 (1979).
 */
function otsuThreshold(data: Uint8Array): number {
  const counts = new Uint32Array(256);
  for (const level of data) counts[level]!++;
  const mean = counts.reduce((sum, count, level) => sum + level * count, 0) / data.length;
  let [below, sumBelow, best, threshold] = [0, 0, 0, 0];
  for (let level = 0; level < 256; level++) {
    below += counts[level]! / data.length;
    sumBelow += (level * counts[level]!) / data.length;
    if (below < EMPTY || below > 1 - EMPTY) continue;
    const between = (mean * below - sumBelow) ** 2 / (below * (1 - below));
    if (between > best) [best, threshold] = [between, level];
  }
  return threshold;
}

/** A class with less than this share of the pixels is none. */
const EMPTY = 1e-7;
