/** How much of a pad a reflection on its wet film brightens. */
import type { Rgb } from '../../core/samples.ts';

/** Rise of all three channels at once above the pad's own colour, as a share of the bare plastic's level. */
const MIN_RISE = 0.08;
/** The pad's own colour: no reflection ever covers all of it and leaves its darkest places alone. */
const OWN_PERCENTILE = 0.15;

/**
 * A reflection adds white: it lifts the channel that the dye absorbs and the one that it reflects. Uneven dye
 * moves the first and hardly the second.
 * @param rgb the pad's pixels, three bytes each
 * @param base the bare plastic, encoded RGB 0-1
 * @returns share of the pixels, 0 to 1
 */
export function brightenedShare(rgb: Uint8Array, base: Rgb): number {
  const total = rgb.length / 3;
  if (total === 0) return 0;
  const least = [0, 1, 2].map((c) => percentileOf(rgb, c, OWN_PERCENTILE) + MIN_RISE * 255 * base[c]!);
  let brightened = 0;
  for (let i = 0; i < rgb.length; i += 3) {
    if (rgb[i]! > least[0]! && rgb[i + 1]! > least[1]! && rgb[i + 2]! > least[2]!) brightened++;
  }
  return brightened / total;
}

function percentileOf(rgb: Uint8Array, channel: number, share: number): number {
  const counts = new Uint32Array(256);
  for (let i = channel; i < rgb.length; i += 3) counts[rgb[i]!]!++;
  let below = 0;
  for (let level = 0; level < 256; level++) {
    below += counts[level]!;
    if (below >= (share * rgb.length) / 3) return level;
  }
  return 255;
}
