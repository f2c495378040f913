/**
 * A picture as the reader sees it: RGBA bytes, row by row, already upright.
 *
 * Places in a picture are continuous: (0, 0) is the top left corner of the top
 * left pixel, so the centre of pixel (i, j) is (i + 0.5, j + 0.5).
 */
export interface Pixels {
  readonly data: Uint8ClampedArray;
  readonly width: number;
  readonly height: number;
}

export function isInside({ width, height }: Pixels, [x, y]: readonly [number, number]): boolean {
  return x >= 0 && y >= 0 && x <= width && y <= height;
}
