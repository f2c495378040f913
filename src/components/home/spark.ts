/** The last readings of one quantity as a small drawing: points, the last one with its whisker, the target hatched. */
import type { TrendPoint } from '../../core/log/trends.ts';
import type { Span } from '../../core/reading/spans.ts';
import { svg, type SvgNode } from '../svg.ts';

const WIDTH = 128;
const HEIGHT = 44;
const EDGE = 5;

let drawn = 0;

/** @param points in the order of time, two at least; the drawing's text alternative is the text beside it */
export function drawSpark(points: readonly TrendPoint[], target: Span | null): SvgNode {
  drawn += 1;
  const hatch = `spark-hatch-${drawn}`;
  const last = points.at(-1)!;
  const values = [
    ...points.map(({ value }) => value),
    last.low,
    last.high,
    ...(target ? [target.low, target.high] : []),
  ];
  const x = linear(Date.parse(points[0]!.time), Date.parse(last.time), EDGE, WIDTH - EDGE);
  const y = linear(Math.min(...values), Math.max(...values), HEIGHT - EDGE, EDGE);
  const at = points.map(({ time, value }): [number, number] => [x(Date.parse(time)), y(value)]);
  const [lastX, lastY] = at.at(-1)!;
  return svg(
    'svg',
    { class: 'spark', 'aria-hidden': 'true', width: WIDTH, height: HEIGHT, viewBox: `0 0 ${WIDTH} ${HEIGHT}` },
    ...(target ? hatched(hatch, y(target.high), y(target.low)) : []),
    svg('path', { class: 'line', d: `M${at.map((point) => point.map(shortened).join(' ')).join('L')}` }),
    ...at
      .slice(0, -1)
      .map(([cx, cy]) => svg('circle', { class: 'before', cx: shortened(cx), cy: shortened(cy), r: 1.8 })),
    svg('path', { class: 'whisker', d: `M${shortened(lastX)} ${shortened(y(last.low))}V${shortened(y(last.high))}` }),
    svg('circle', { class: 'last', cx: shortened(lastX), cy: shortened(lastY), r: 3.4 }),
  );
}

function hatched(id: string, top: number, bottom: number): SvgNode[] {
  const pattern = { id, width: 6, height: 6, patternUnits: 'userSpaceOnUse', patternTransform: 'rotate(45)' };
  const box = { x: 0, width: WIDTH, y: shortened(top), height: shortened(Math.max(1, bottom - top)) };
  return [
    svg('defs', {}, svg('pattern', pattern, svg('path', { class: 'hatch', d: 'M0 0V6' }))),
    svg('rect', { ...box, fill: `url(#${id})` }),
  ];
}

/** In the middle where there is nothing to stretch. */
function linear(from: number, to: number, start: number, end: number): (value: number) => number {
  return (value) => (to === from ? (start + end) / 2 : start + ((value - from) / (to - from)) * (end - start));
}

function shortened(value: number): number {
  return Math.round(value * 10) / 10;
}
