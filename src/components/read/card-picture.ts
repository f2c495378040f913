/** The flattened card with the pads that were found, outlined and numbered. */
import { CARD_HEIGHT_MM, CARD_WIDTH_MM } from '../../core/card/geometry.ts';
import type { PadReading } from '../../core/reading/reading.ts';
import type { Pixels } from '../../vision/pixels.ts';
import { h } from '../dom.ts';
import { svg, toElement, type SvgNode } from '../svg.ts';

export function cardPicture(flat: Pixels, pads: readonly Pick<PadReading, 'outline'>[]): HTMLElement {
  const canvas = h('canvas', { width: flat.width, height: flat.height });
  const image = new ImageData(new Uint8ClampedArray(flat.data), flat.width, flat.height);
  canvas.getContext('2d')?.putImageData(image, 0, 0);
  const caption = pads.length
    ? 'Your card, flattened. The numbers are those of the pads in the list.'
    : 'Your card, flattened.';
  const frame = h('div', { class: 'card-picture' }, canvas);
  if (pads.length) frame.append(toElement(outlines(pads)));
  return h('figure', {}, frame, h('figcaption', {}, caption));
}

function outlines(pads: readonly Pick<PadReading, 'outline'>[]): SvgNode {
  return svg(
    'svg',
    { viewBox: `0 0 ${CARD_WIDTH_MM} ${CARD_HEIGHT_MM}`, 'aria-hidden': 'true' },
    ...pads.flatMap(({ outline }, i) => {
      const points = outline.map(([x, y]) => `${x.toFixed(2)},${y.toFixed(2)}`).join(' ');
      const x = mean(outline.map((corner) => corner[0]));
      const y = Math.min(...outline.map((corner) => corner[1])) - 4.4;
      return [
        svg('polygon', { class: 'halo', points }),
        svg('polygon', { class: 'outline', points }),
        svg('circle', { cx: x, cy: y, r: 3.1 }),
        svg('text', { x, y: y + 1.5, 'text-anchor': 'middle' }, String(i + 1)),
      ];
    }),
  );
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
