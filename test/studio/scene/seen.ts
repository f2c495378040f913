/** Which parts of a texture a picture shows: the rest needn't be painted. */
import type { Projection } from './view.ts';

/** Texels to a tile's side, as a power of two. */
export const TILE_BITS = 4;

/** By tiles, row by row: 1 where a texel may be seen. */
export interface Seen {
  readonly columns: number;
  readonly tiles: Uint8Array;
}

export interface Ground {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly x0Mm: number;
  readonly y0Mm: number;
  readonly pxPerMm: number;
}

export interface Box {
  readonly x0Mm: number;
  readonly y0Mm: number;
  readonly widthMm: number;
  readonly heightMm: number;
}

/** Pixels of the picture that are looked at together. */
const STEP = 4;

/**
 * @param hiding what lies flat on the ground and hides it; null where nothing does
 * @returns null where the picture shows more than the ground's texture holds: all of it may then be seen, mirrored
 */
export function seenOf(
  ground: Ground,
  projection: Projection,
  widthPx: number,
  heightPx: number,
  hiding: Box | null,
): Seen | null {
  const columns = (ground.widthPx >> TILE_BITS) + 1;
  const rows = (ground.heightPx >> TILE_BITS) + 1;
  const tiles = new Uint8Array(columns * rows);
  const [across, down] = [Math.ceil(widthPx / STEP) + 1, Math.ceil(heightPx / STEP) + 1];
  // Texels under the corners of each block of pixels, and whether they are hidden.
  const xs = new Float64Array(across * down);
  const ys = new Float64Array(across * down);
  const hidden = new Uint8Array(across * down);
  const place = new Float64Array(2);
  for (let j = 0; j < down; j++) {
    for (let i = 0; i < across; i++) {
      const at = j * across + i;
      if (!projection.toPlane(Math.min(widthPx, i * STEP), Math.min(heightPx, j * STEP), place)) return null;
      xs[at] = (place[0]! - ground.x0Mm) * ground.pxPerMm;
      ys[at] = (place[1]! - ground.y0Mm) * ground.pxPerMm;
      if (!(xs[at]! >= 1 && xs[at]! < ground.widthPx - 1 && ys[at]! >= 1 && ys[at]! < ground.heightPx - 1)) return null;
      if (hiding && isInside(hiding, place[0]!, place[1]!, 2 / projection.pxPerMm)) hidden[at] = 1;
    }
  }
  for (let j = 0; j + 1 < down; j++) {
    for (let i = 0; i + 1 < across; i++) {
      const [a, b] = [j * across + i, (j + 1) * across + i];
      if (hidden[a]! & hidden[a + 1]! & hidden[b]! & hidden[b + 1]!) continue;
      const left = tile(Math.min(xs[a]!, xs[a + 1]!, xs[b]!, xs[b + 1]!) - 2);
      const right = tile(Math.max(xs[a]!, xs[a + 1]!, xs[b]!, xs[b + 1]!) + 2);
      const top = tile(Math.min(ys[a]!, ys[a + 1]!, ys[b]!, ys[b + 1]!) - 2);
      const bottom = Math.min(rows - 1, tile(Math.max(ys[a]!, ys[a + 1]!, ys[b]!, ys[b + 1]!) + 2));
      for (let y = top; y <= bottom; y++) tiles.fill(1, y * columns + left, y * columns + Math.min(columns, right + 1));
    }
  }
  return { columns, tiles };
}

function tile(texel: number): number {
  return Math.max(0, Math.floor(texel)) >> TILE_BITS;
}

function isInside({ x0Mm, y0Mm, widthMm, heightMm }: Box, xMm: number, yMm: number, byMm: number): boolean {
  const [x, y] = [xMm - x0Mm, yMm - y0Mm];
  return x > byMm && x < widthMm - byMm && y > byMm && y < heightMm - byMm;
}

export function isSeen(seen: Seen, x: number, y: number): boolean {
  return seen.tiles[(y >> TILE_BITS) * seen.columns + (x >> TILE_BITS)] === 1;
}
