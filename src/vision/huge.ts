/** Huge photos made smaller. */
import { hugeFactor } from '../core/photo/huge.ts';
import { asWords } from './card/grey.ts';
import type { Pixels } from './pixels.ts';

/** @returns the photo itself where it isn't huge */
export function shrinkHuge(photo: Pixels): Pixels {
  return shrinkBy(photo, hugeFactor(photo));
}

/** Averages blocks of `factor` x `factor` pixels. @returns the photo itself where they are single pixels */
export function shrinkBy(photo: Pixels, factor: number): Pixels {
  if (factor === 1) return photo;
  const [width, height] = [Math.floor(photo.width / factor), Math.floor(photo.height / factor)];
  const data = new Uint8ClampedArray(width * height * 4);
  averageRows(photo.data, photo.width, factor, data, width);
  return { data, width, height };
}

/**
 * Averages blocks of `factor` x `factor` pixels; what is left over at the right and below falls away.
 * @param from whole rows of RGBA, `fromWidth` pixels each
 * @param factor at most 11
 * @param to takes whole rows of `toWidth` pixels; opaque
 */
export function averageRows(
  from: Uint8ClampedArray,
  fromWidth: number,
  factor: number,
  to: Uint8ClampedArray,
  toWidth: number,
): void {
  const words = asWords(from);
  const share = 1 / (factor * factor);
  const rows = to.length / (4 * toWidth);
  for (let y = 0, at = 0; y < rows; y++) {
    for (let x = 0; x < toWidth; x++, at += 4) {
      // Red and blue are added up together, in the two halves of one number.
      let both = 0;
      let green = 0;
      for (let j = 0, start = y * factor * fromWidth + x * factor; j < factor; j++, start += fromWidth) {
        for (let i = start; i < start + factor; i++) {
          const word = words[i]!;
          both += word & 0xff00ff;
          green += (word >>> 8) & 0xff;
        }
      }
      to[at] = (both & 0xffff) * share;
      to[at + 1] = green * share;
      to[at + 2] = (both >>> 16) * share;
      to[at + 3] = 255;
    }
  }
}
