/** Plain charts in ink: a frame with named axes, lines and a marked spot. Lengths in the drawing's units. */
import { svg, type SvgNode } from '../svg.ts';

export interface Axis {
  readonly from: number;
  readonly to: number;
  readonly ticks: readonly number[];
  readonly name: string;
  readonly log?: boolean;
  readonly say?: (value: number) => string;
}

export interface Plot {
  readonly width: number;
  readonly height: number;
  x(value: number): number;
  y(value: number): number;
  readonly xAxis: Axis;
  readonly yAxis: Axis;
}

const MARGIN = { left: 44, right: 10, top: 28, bottom: 36 } as const;

export function plot(xAxis: Axis, yAxis: Axis, width = 400, height = 240): Plot {
  return {
    width,
    height,
    xAxis,
    yAxis,
    x: place(xAxis, MARGIN.left, width - MARGIN.right),
    y: place(yAxis, height - MARGIN.bottom, MARGIN.top),
  };
}

function place({ from, to, log }: Axis, start: number, end: number): (value: number) => number {
  const along = log ? Math.log : (x: number) => x;
  return (value) => start + ((along(value) - along(from)) / (along(to) - along(from))) * (end - start);
}

/** What a fraction of the picture's width or height stands for; held to the axis. */
export function valueAtX({ width, xAxis: { from, to } }: Plot, fraction: number): number {
  const inside = (fraction * width - MARGIN.left) / (width - MARGIN.left - MARGIN.right);
  return from + Math.min(1, Math.max(0, inside)) * (to - from);
}

export function valueAtY({ height, yAxis: { from, to } }: Plot, fraction: number): number {
  const inside = (height - MARGIN.bottom - fraction * height) / (height - MARGIN.bottom - MARGIN.top);
  return from + Math.min(1, Math.max(0, inside)) * (to - from);
}

export function drawPlot(chart: Plot, label: string, ...content: SvgNode[]): SvgNode {
  const { width, height } = chart;
  return svg(
    'svg',
    { class: 'drawing chart', viewBox: `0 0 ${width} ${height}`, role: 'img', 'aria-label': label },
    ...axes(chart),
    ...content,
  );
}

function axes({ width, height, x, y, xAxis, yAxis }: Plot): SvgNode[] {
  const [left, right] = [MARGIN.left, width - MARGIN.right];
  const [top, bottom] = [MARGIN.top, height - MARGIN.bottom];
  const say = ({ say }: Axis, value: number) => say?.(value) ?? String(value).replace('-', '−');
  return [
    svg('path', {
      class: 'rule',
      d: yAxis.ticks.map((tick) => `M${left} ${n(y(tick))}H${right}`).join(''),
    }),
    svg('path', { d: `M${left} ${top}V${bottom}H${right}` }),
    svg('path', { d: xAxis.ticks.map((tick) => `M${n(x(tick))} ${bottom}v4`).join('') }),
    ...yAxis.ticks.map((tick) => text(left - 6, y(tick) + 4, say(yAxis, tick), 'end')),
    ...xAxis.ticks.map((tick) => text(x(tick), bottom + 16, say(xAxis, tick), 'middle')),
    text(right, height - 4, xAxis.name, 'end', 'name'),
    text(4, 11, yAxis.name, 'start', 'name'),
  ];
}

export type Point = readonly [x: number, y: number];

export function line({ x, y }: Plot, points: readonly Point[], name = 'curve'): SvgNode {
  const d = points.map(([px, py], i) => `${i === 0 ? 'M' : 'L'}${n(x(px))} ${n(y(py))}`).join('');
  return svg('path', { class: name, d });
}

/** Marks the present setting: a ring with a dot, visible on any line. */
export function spot({ x, y }: Plot, [px, py]: Point): SvgNode {
  const [cx, cy] = [n(x(px)), n(y(py))];
  return svg(
    'g',
    { class: 'spot' },
    svg('circle', { class: 'halo', cx, cy, r: 7 }),
    svg('circle', { cx, cy, r: 6 }),
    svg('circle', { class: 'solid', cx, cy, r: 2 }),
  );
}

export function text(x: number, y: number, words: string, anchor: 'start' | 'middle' | 'end', name = ''): SvgNode {
  return svg('text', { x: n(x), y: n(y), 'text-anchor': anchor, ...(name ? { class: name } : {}) }, words);
}

export function steps(from: number, to: number, count: number): number[] {
  return Array.from({ length: count + 1 }, (_, i) => from + ((to - from) * i) / count);
}

function n(x: number): string {
  return String(Math.round(x * 10) / 10);
}
