/** Huge photos made smaller. */
import { hugeFactor } from '../core/photo/huge.ts';
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
 * @param to takes whole rows of `toWidth` pixels; opaque
 */
export function averageRows(
  from: Uint8ClampedArray,
  fromWidth: number,
  factor: number,
  to: Uint8ClampedArray,
  toWidth: number,
): void {
  const share = 1 / (factor * factor);
  const rows = to.length / (4 * toWidth);
  for (let y = 0; y < rows; y++) {
    for (let x = 0; x < toWidth; x++) {
      let [red, green, blue] = [0, 0, 0];
      for (let j = 0; j < factor; j++) {
        let at = ((y * factor + j) * fromWidth + x * factor) * 4;
        for (let i = 0; i < factor; i++, at += 4) {
          red += from[at]!;
          green += from[at + 1]!;
          blue += from[at + 2]!;
        }
      }
      const at = (y * toWidth + x) * 4;
      to[at] = red * share;
      to[at + 1] = green * share;
      to[at + 2] = blue * share;
      to[at + 3] = 255;
    }
  }
}
