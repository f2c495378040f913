/**
 * Pictures of the card for the tests of finding and flattening: the printed
 * shapes seen by a pinhole camera at a known place, on a table with clutter.
 * Only geometry is physical here; colours are plain multiplications.
 */
import type { Pixels } from '../../src/vision/pixels.ts';
import { blur, type Canvas, randomFrom, toPixels } from './pictures/canvas.ts';
import { aim, layCard } from './pictures/lay-card.ts';
import type { Photo, Shot } from './pictures/shot.ts';
import { light, tableTop } from './pictures/table.ts';

export { beside, type Random, randomFrom } from './pictures/canvas.ts';
export { flatCard } from './pictures/printed-card.ts';
export { type Photo, randomShot, type Shot } from './pictures/shot.ts';

/** @param print what the sheet bears in several finenesses, where it isn't the card */
export function photograph(shot: Shot, print?: readonly Canvas[]): Photo {
  const random = randomFrom(shot.seed);
  const canvas = tableTop(shot, random);
  const toPhoto = aim(shot);
  layCard(canvas, shot, toPhoto, random, print);
  light(canvas, shot, random);
  if (shot.blurPx) blur(canvas, shot.blurPx);
  return { pixels: toPixels(canvas, shot.noise ?? 0, random), toPhoto };
}

/** A picture of a table without a card. */
export function emptyTable(shot: Shot): Pixels {
  const random = randomFrom(shot.seed);
  const canvas = tableTop(shot, random);
  light(canvas, shot, random);
  if (shot.blurPx) blur(canvas, shot.blurPx);
  return toPixels(canvas, shot.noise ?? 0, random);
}
