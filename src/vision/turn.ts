/** Turning a picture the way up that its camera meant. */
import { asWords } from './card/grey.ts';
import { colourWidth, type Pixels, type Planes } from './pixels.ts';

/** Clockwise by `rotation` degrees, a multiple of 90; then, where `flip` is set, left for right. */
export interface Turn {
  readonly rotation: number;
  readonly flip: boolean;
}

/** Squares this wide are copied one after the other: whole columns of a large picture would take five times as long. */
const TILE_PX = 32;

export function isUpright({ rotation, flip }: Turn): boolean {
  return rotation % 360 === 0 && !flip;
}

/** @param data where the turned picture goes, four bytes a pixel */
export function turned(from: Pixels, turn: Turn, data: Uint8ClampedArray): Pixels {
  const { width, height } = turnedSize(from, turn);
  copyTurned(asWords(from.data), from, turn, asWords(data));
  return { data, width, height };
}

export function turnedPlanes(from: Planes, turn: Turn): Planes {
  const isOnSide = turn.rotation % 180 !== 0;
  const width = colourWidth(from);
  const colourSize = { width, height: from.cb.length / width };
  const turnOne = (plane: Uint8Array, size: Size) => {
    const to = new Uint8Array(plane.length);
    copyTurned(plane, size, turn, to);
    return to;
  };
  return {
    luma: turnOne(from.luma, from),
    cb: turnOne(from.cb, colourSize),
    cr: turnOne(from.cr, colourSize),
    across: isOnSide ? from.down : from.across,
    down: isOnSide ? from.across : from.down,
    ...turnedSize(from, turn),
  };
}

interface Size {
  readonly width: number;
  readonly height: number;
}

function turnedSize({ width, height }: Size, { rotation }: Turn): Size {
  return rotation % 180 === 0 ? { width, height } : { width: height, height: width };
}

function copyTurned<Plane extends Int32Array | Uint8Array>(from: Plane, size: Size, turn: Turn, to: Plane): void {
  const { width, height } = turnedSize(size, turn);
  const { start, across, down } = walk(size, turn, width);
  for (let top = 0; top < height; top += TILE_PX) {
    for (let left = 0; left < width; left += TILE_PX) {
      const right = Math.min(width, left + TILE_PX);
      for (let y = top; y < Math.min(height, top + TILE_PX); y++) {
        for (let x = left, at = start + y * down + x * across; x < right; x++, at += across) {
          to[y * width + x] = from[at]!;
        }
      }
    }
  }
}

interface Walk {
  /** Pixels of the source, counted row by row: that of the first pixel, and the steps from pixel to pixel. */
  readonly start: number;
  readonly across: number;
  readonly down: number;
}

function walk({ width, height }: Size, { rotation, flip }: Turn, turnedWidth: number): Walk {
  const last = width * height - 1;
  const plain: Partial<Record<number, Walk>> = {
    0: { start: 0, across: 1, down: width },
    90: { start: last - (width - 1), across: -width, down: 1 },
    180: { start: last, across: -1, down: -width },
    270: { start: width - 1, across: width, down: -1 },
  };
  const found = plain[((rotation % 360) + 360) % 360];
  if (!found) throw new RangeError(`a picture can’t be turned by ${rotation} degrees`);
  if (!flip) return found;
  return { ...found, start: found.start + (turnedWidth - 1) * found.across, across: -found.across };
}
