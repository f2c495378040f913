/** The class's readings of one strip as dots along its scale, with the truth and the photo's interval. */
import { choicesOf } from '../../core/match/round.ts';
import type { ScalePad } from '../../core/scale/schema.ts';
import { formatValue } from '../../words/numbers.ts';
import { svg, type SvgNode } from '../svg.ts';

export interface Dots {
  readonly pad: ScalePad;
  /** Choices made, in blocks. */
  readonly chosen: readonly number[];
  /** In blocks. */
  readonly truth: number;
  readonly photo: { readonly from: number; readonly to: number } | null;
}

const WIDTH = 400;
const MARGIN = 24;
const DOT = 9;
/** Rows of dots that the drawing has room for before they close up. */
const ROWS = 8;
const BASE = 122;

export function drawDots({ pad, chosen, truth, photo }: Dots, description: string): SvgNode {
  const last = pad.blocks.length - 1;
  const x = (block: number) => (MARGIN + (block / last) * (WIDTH - 2 * MARGIN)).toFixed(1);
  const counts = choicesOf(pad).map((block) => ({ block, count: chosen.filter((one) => one === block).length }));
  const highest = Math.max(1, ...counts.map(({ count }) => count));
  const step = Math.min(DOT + 3, ((DOT + 3) * ROWS) / highest);
  return svg(
    'svg',
    { class: 'dots', viewBox: `0 0 ${WIDTH} 168`, role: 'img', 'aria-label': description },
    ...(photo
      ? [
          svg('rect', {
            class: 'photo-span',
            x: x(photo.from),
            y: 14,
            width: (Number(x(photo.to)) - Number(x(photo.from))).toFixed(1),
            height: BASE - 14,
          }),
        ]
      : []),
    svg('line', { class: 'base', x1: x(0), x2: x(last), y1: BASE, y2: BASE }),
    ...pad.blocks.flatMap(({ value }, i) => [
      svg('line', { class: 'base', x1: x(i), x2: x(i), y1: BASE, y2: BASE + 6 }),
      svg('text', { x: x(i), y: BASE + 22, 'text-anchor': 'middle' }, formatValue(value)),
    ]),
    svg('line', { class: 'truth', x1: x(truth), x2: x(truth), y1: 14, y2: BASE + 6 }),
    svg('text', { class: 'truth-name', x: x(truth), y: 10, 'text-anchor': 'middle' }, 'true'),
    ...counts.flatMap(({ block, count }) =>
      Array.from({ length: count }, (_, i) =>
        svg('circle', { class: 'dot', cx: x(block), cy: (BASE - DOT / 2 - 3 - i * step).toFixed(1), r: DOT / 2 }),
      ),
    ),
    svg('text', { class: 'legend', x: MARGIN, y: 162 }, 'dashed frame: the photo’s interval'),
  );
}
