/** How much of a pad a reflection on its wet film brightens. */
import type { Rgb } from '../../core/samples.ts';

/** Rise of all three channels at once above the pad's own colour, as a share of the bare plastic's level. */
const MIN_RISE = 0.08;
/** The pad's own colour: no reflection ever covers all of it and leaves its darkest places alone. */
const OWN_PERCENTILE = 0.15;

/**
 * A reflection adds white: it lifts the channel that the dye absorbs and the one that it reflects. Uneven dye
 * moves the first and hardly the second.
 * @param words the pad's pixels, RGBA, a number each
 * @param base the bare plastic, encoded RGB 0-1
 * @returns share of the pixels, 0 to 1
 */
export function brightenedShare(words: Int32Array, base: Rgb): number {
  const total = words.length;
  if (total === 0) return 0;
  const least = (channel: 0 | 1 | 2) =>
    percentileOf(words, 8 * channel, OWN_PERCENTILE) + MIN_RISE * 255 * base[channel];
  const [red, green, blue] = [least(0), least(1), least(2)];
  let brightened = 0;
  for (let i = 0; i < total; i++) {
    const word = words[i]!;
    if ((word & 0xff) > red && ((word >>> 8) & 0xff) > green && ((word >>> 16) & 0xff) > blue) brightened++;
  }
  return brightened / total;
}

/** @param shift to the channel's bits */
function percentileOf(words: Int32Array, shift: number, share: number): number {
  const counts = new Uint32Array(256);
  for (const word of words) counts[(word >>> shift) & 0xff]!++;
  let below = 0;
  for (let level = 0; level < 256; level++) {
    below += counts[level]!;
    if (below >= share * words.length) return level;
  }
  return 255;
}
