/** Photos with brightness and colour apart, made from RGBA. */
import type { Pixels, Planes } from '../../src/vision/pixels.ts';

/** Y, Cb and Cr by ITU-T T.871, clause 7, colour averaged over blocks as most encoders do. */
export function planesFrom(photo: Pixels, across: 0 | 1 = 1, down: 0 | 1 = 1): Planes {
  const { width, height, data } = photo;
  const [colourWidth, colourHeight] = [(width + across) >> across, (height + down) >> down];
  const luma = new Uint8Array(width * height);
  for (let i = 0; i < luma.length; i++) {
    luma[i] = Math.round(0.299 * data[4 * i]! + 0.587 * data[4 * i + 1]! + 0.114 * data[4 * i + 2]!);
  }
  const cb = new Uint8Array(colourWidth * colourHeight);
  const cr = new Uint8Array(colourWidth * colourHeight);
  for (let y = 0; y < colourHeight; y++) {
    for (let x = 0; x < colourWidth; x++) {
      const [red, green, blue] = blockMean(photo, x << across, y << down, 1 << across, 1 << down);
      cb[y * colourWidth + x] = Math.round(128 - 0.168736 * red - 0.331264 * green + 0.5 * blue);
      cr[y * colourWidth + x] = Math.round(128 + 0.5 * red - 0.418688 * green - 0.081312 * blue);
    }
  }
  return { luma, cb, cr, across, down, width, height };
}

function blockMean({ data, width, height }: Pixels, x: number, y: number, wide: number, high: number) {
  const mean: [number, number, number] = [0, 0, 0];
  for (let j = 0; j < high; j++) {
    for (let i = 0; i < wide; i++) {
      const at = 4 * (Math.min(height - 1, y + j) * width + Math.min(width - 1, x + i));
      for (const c of [0, 1, 2] as const) mean[c] += data[at + c]! / (wide * high);
    }
  }
  return mean;
}
