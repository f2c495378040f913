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
  readonly luma?: undefined;
}

/**
 * The same with brightness and colour apart, as most JPEGs have them: Y, Cb and Cr of ITU-T T.871, full range. Colour may
 * be coarser: a pixel's lies at its column and row shifted right by `across` and `down`.
 */
export interface Planes {
  readonly luma: Uint8Array;
  readonly cb: Uint8Array;
  readonly cr: Uint8Array;
  readonly across: 0 | 1;
  readonly down: 0 | 1;
  readonly width: number;
  readonly height: number;
}

export type Photo = Pixels | Planes;

/** Pixels of a plane of colour in a row. */
export function colourWidth({ width, across }: Planes): number {
  return (width + across) >> across;
}

interface Size {
  readonly width: number;
  readonly height: number;
}

export function isInside({ width, height }: Size, [x, y]: readonly [number, number]): boolean {
  return x >= 0 && y >= 0 && x <= width && y <= height;
}
