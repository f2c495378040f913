/** A row cut out of the photo and laid level, with what is printed around it. */
import type { Point } from '../../core/card/homography.ts';
import type { PhotoSize } from './magnifier.ts';
import type { Row } from './rows.ts';

/** Shown beyond the row's ends and above and below its blocks, mm: a name stands on the left, values below. */
const LEFT_MM = 32;
const RIGHT_MM = 6;
const ABOVE_MM = 7;
const PX_PER_MM = 7;

export interface PictureSource {
  readonly image: HTMLImageElement;
  readonly photo: PhotoSize;
}

/** @returns null where the row is too short to tell its direction */
export function rowPicture({ image, photo }: PictureSource, { marks }: Row): HTMLCanvasElement | null {
  const { widthPx, heightPx, pxPerMm } = photo;
  const [first, last] = [marks[0]?.block, marks.at(-1)?.block];
  if (!first || !last || first === last) return null;
  const [from, to] = leftToRight(first.centre, last.centre);
  const turn = Math.atan2(to[1] - from[1], to[0] - from[0]);
  const size = Math.max(...marks.map(({ block }) => block.sidesMm[0]));
  const widthMm = Math.hypot(to[0] - from[0], to[1] - from[1]) / pxPerMm + size + LEFT_MM + RIGHT_MM;
  const heightMm = size + 2 * ABOVE_MM;
  const canvas = document.createElement('canvas');
  canvas.width = Math.round(widthMm * PX_PER_MM);
  canvas.height = Math.round(heightMm * PX_PER_MM);
  const context = canvas.getContext('2d');
  if (!context) return null;
  const scale = PX_PER_MM / pxPerMm;
  context.translate((LEFT_MM + size / 2) * PX_PER_MM, (heightMm / 2) * PX_PER_MM);
  context.scale(scale, scale);
  context.rotate(-turn);
  context.drawImage(image, -from[0], -from[1], widthPx, heightPx);
  return canvas;
}

/** As the photo shows it; an upright row runs down. */
function leftToRight(one: Point, other: Point): [Point, Point] {
  const [dx, dy] = [other[0] - one[0], other[1] - one[1]];
  const forwards = Math.abs(dx) >= Math.abs(dy) ? dx > 0 : dy > 0;
  return forwards ? [one, other] : [other, one];
}
