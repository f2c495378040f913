/** The flattened card with the pads that were found, outlined and numbered, and the places of doubts, lettered. */
import { CARD_HEIGHT_MM, CARD_WIDTH_MM } from '../../core/card/geometry.ts';
import type { PadReading, Place } from '../../core/reading/reading.ts';
import type { Pixels } from '../../vision/pixels.ts';
import { h } from '../dom.ts';
import { svg, toElement, type SvgNode } from '../svg.ts';
import { mean } from '../../core/math/average.ts';

type Outline = PadReading['outline'];

export function cardPicture(
  flat: Pixels,
  pads: readonly Pick<PadReading, 'outline'>[],
  places: readonly Place[] = [],
): HTMLElement {
  const canvas = h('canvas', { width: flat.width, height: flat.height });
  // After what is read first has been drawn. A canvas that was freed meanwhile stays empty.
  setTimeout(() => {
    if (canvas.width === 0) return;
    const image = new ImageData(flat.data as Uint8ClampedArray<ArrayBuffer>, flat.width, flat.height);
    canvas.getContext('2d')?.putImageData(image, 0, 0);
  });
  const frame = h('div', { class: 'card-picture' }, canvas);
  if (pads.length + places.length > 0) frame.append(toElement(drawing(pads, places)));
  const caption = [
    'Your card, flattened.',
    pads.length > 0 ? 'The numbers are those of the pads in the list.' : '',
    places.length > 0 ? 'The letters show where the sentences with the same letter apply.' : '',
  ];
  return h('figure', {}, frame, h('figcaption', {}, caption.filter(Boolean).join(' ')));
}

function drawing(pads: readonly Pick<PadReading, 'outline'>[], places: readonly Place[]): SvgNode {
  const letters = lettersOf(places);
  return svg(
    'svg',
    { viewBox: `0 0 ${CARD_WIDTH_MM} ${CARD_HEIGHT_MM}`, 'aria-hidden': 'true' },
    ...pads.flatMap(({ outline }, i) => labelled(outline, String(i + 1), 'above')),
    ...places.flatMap(({ code, outline }) => labelled(outline, letters.get(code)!, 'below')),
  );
}

/** An outline with its number above it, or dashed with its letter below it. */
function labelled(outline: Outline, label: string, side: 'above' | 'below'): SvgNode[] {
  const points = outline.map(([x, y]) => `${x.toFixed(2)},${y.toFixed(2)}`).join(' ');
  const x = mean(outline.map((corner) => corner[0]));
  const ys = outline.map((corner) => corner[1]);
  const y = side === 'above' ? Math.min(...ys) - 4.4 : Math.min(CARD_HEIGHT_MM - 3.5, Math.max(...ys) + 4.4);
  return [
    svg('polygon', { class: 'halo', points }),
    svg('polygon', { class: side === 'above' ? 'outline' : 'outline doubt', points }),
    svg('circle', { cx: x, cy: y, r: 3.1 }),
    svg('text', { x, y: y + 1.5, 'text-anchor': 'middle' }, label),
  ];
}

/** A kept card's pixels, as the photo's flattened card had them but for the JPEG. Null where it can't be opened. */
export async function pixelsOf(jpeg: Uint8Array<ArrayBuffer>): Promise<Pixels | null> {
  try {
    const bitmap = await createImageBitmap(new Blob([jpeg], { type: 'image/jpeg' }));
    const { width, height } = bitmap;
    const canvas = h('canvas', { width, height });
    const context = canvas.getContext('2d', { willReadFrequently: true });
    context?.drawImage(bitmap, 0, 0);
    bitmap.close();
    const pixels = context && context.getImageData(0, 0, width, height);
    canvas.width = 0;
    return pixels;
  } catch {
    return null;
  }
}

/** A letter for every code that has a place, in the order of the places. */
export function lettersOf(places: readonly Place[]): ReadonlyMap<string, string> {
  const codes = [...new Set(places.map(({ code }) => code))];
  return new Map(codes.map((code, i) => [code, String.fromCharCode(0x61 + i)]));
}
