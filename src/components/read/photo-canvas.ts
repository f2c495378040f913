/** A photo to look at, smaller: a browser keeps the pixels of an image element for a while, those of a canvas go when told. */
import { smallBitmap } from '../../browser/frame-decoder.ts';
import { h } from '../dom.ts';

/** Long side, px. */
const SHOWN_PX = 1200;

/** @returns null where the photo can't be opened */
export async function photoCanvas(photo: Blob): Promise<HTMLCanvasElement | null> {
  const bitmap = (await smallBitmap(photo, SHOWN_PX)) ?? (await createImageBitmap(photo).catch(() => null));
  if (!bitmap) return null;
  const shrink = Math.min(1, SHOWN_PX / Math.max(bitmap.width, bitmap.height));
  const canvas = h('canvas', { width: Math.round(bitmap.width * shrink), height: Math.round(bitmap.height * shrink) });
  canvas.getContext('2d')?.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
  bitmap.close();
  return canvas;
}

/** Null where it can't be shown. */
export async function photoFigure(photo: Blob): Promise<HTMLElement | null> {
  const canvas = await photoCanvas(photo);
  const name = 'The photo you chose.';
  canvas?.setAttribute('role', 'img');
  canvas?.setAttribute('aria-label', name);
  return canvas && h('figure', { class: 'photo' }, canvas, h('figcaption', {}, name));
}
