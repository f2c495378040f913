/** Photos of more pixels than a reading needs are made smaller by whole steps, so that memory stays bounded. */

/** A 24-megapixel phone's photo is kept as it is; one of 48 is halved to 12. */
const MAX_PIXELS = 30_000_000;

/** How many pixels of the photo, in each direction, become one. */
export function hugeFactor({ width, height }: { width: number; height: number }): number {
  return Math.max(1, Math.ceil(Math.sqrt((width * height) / MAX_PIXELS)));
}
