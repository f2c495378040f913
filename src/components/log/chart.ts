/**
 * Readings over time as a drawing: one panel a parameter, all on one time axis, and below them what went in. Drawn in
 * one ink, so that it reads the same in print and to every eye: points for photos, diamonds for values by hand,
 * whiskers or a band for intervals, a hatched span for the target, lettered lines for additions.
 */
import { type ScaleLinear, scaleLinear, scaleTime, type ScaleTime } from 'd3-scale';
import { area, line } from 'd3-shape';
import type { QuantityId } from '../../core/measurement/quantities.ts';
import type { TrendPoint } from '../../core/log/trends.ts';
import { dateFormat } from '../../words/dates.ts';
import { formatValue } from '../../words/numbers.ts';
import { svg, type SvgNode } from '../svg.ts';

export interface Panel {
  readonly quantity: QuantityId;
  /** "Free chlorine, mg/L" */
  readonly title: string;
  readonly points: readonly TrendPoint[];
  readonly target: { readonly low: number; readonly high: number } | null;
  /** What the water was taken for, by all readings together; in the order of time. */
  readonly course?: readonly CoursePoint[];
  /** Where doses were to bring it. */
  readonly predictions?: readonly Prediction[];
}

export interface Prediction {
  readonly from: string;
  readonly to: string;
  readonly low: number;
  readonly high: number;
}

export interface CoursePoint {
  readonly time: string;
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

export interface ChartAddition {
  readonly time: string;
  readonly letter: string;
}

export interface ChartData {
  readonly panels: readonly Panel[];
  readonly additions: readonly ChartAddition[];
  readonly from: string;
  readonly to: string;
  /** CSS pixels. */
  readonly width: number;
  /** The text alternative. */
  readonly description: string;
}

const LEFT = 46;
const RIGHT = 14;
const TOP = 26;
const PANEL = 92;
const GAP = 34;
const AXIS = 26;
/** Under the axis: a row of letters. */
const LETTERS = 18;
/** Nearer to one another than that, letters would stand on top of each other. */
const LETTER_WIDTH = 11;
const MAX_LETTER_ROWS = 3;
/** Above this many points whiskers would overlap: a band is drawn instead. */
const MAX_WHISKERS = 60;
const MAX_MARKS = 400;
/** A line over a longer gap would claim to know what happened in it. */
const LONGEST_GAP_MILLIS = 21 * 86_400_000;

type Time = ScaleTime<number, number>;
type Value = ScaleLinear<number, number>;

let drawn = 0;

export function drawChart(data: ChartData): SvgNode {
  const { panels, additions, width } = data;
  drawn += 1;
  const hatch = `trend-hatch-${drawn}`;
  const x = scaleTime([new Date(data.from), new Date(data.to)], [LEFT, width - RIGHT]);
  const bottom = TOP + panels.length * (PANEL + GAP) - GAP;
  const letters = inRows(additions, x);
  const rows = Math.max(0, ...letters.map(({ row }) => row + 1));
  const height = bottom + AXIS + (rows > 0 ? rows * LETTERS + 6 : 0);
  return svg(
    'svg',
    { class: 'trends', role: 'img', 'aria-label': data.description, width, height, viewBox: `0 0 ${width} ${height}` },
    svg('defs', {}, hatching(hatch)),
    ...letters.flatMap((letter) => additionMarks(letter, bottom + AXIS)),
    ...panels.flatMap((panel, i) => drawPanel(panel, x, TOP + i * (PANEL + GAP), hatch)),
    ...timeAxis(x, bottom),
  );
}

function hatching(id: string): SvgNode {
  const attributes = { id, width: 6, height: 6, patternUnits: 'userSpaceOnUse', patternTransform: 'rotate(45)' };
  return svg('pattern', attributes, svg('path', { class: 'hatch', d: 'M0 0V6' }));
}

function drawPanel(
  { title, points, target, course = [], predictions = [] }: Panel,
  x: Time,
  top: number,
  hatch: string,
): SvgNode[] {
  const y = valueScale([...points, ...course, ...predictions], target, top);
  const [from, to] = [x.range()[0]!, x.range()[1]!];
  return [
    svg('text', { class: 'title', x: 0, y: top - 9 }, title),
    ...(target ? targetSpan(target, y, from, to, hatch) : []),
    ...y
      .ticks(3)
      .flatMap((tick) => [
        svg('line', { class: 'grid', x1: from, x2: to, y1: y(tick), y2: y(tick) }),
        svg('text', { class: 'tick', x: LEFT - 7, y: y(tick) + 4, 'text-anchor': 'end' }, formatValue(tick)),
      ]),
    ...courseMarks(course, x, y),
    ...predictions.map((prediction) => predicted(prediction, x, y)),
    ...(points.length > MAX_WHISKERS ? [band(points, x, y)] : points.map((point) => whisker(point, x, y))),
    // Where there is an estimate it is drawn between the readings; without one, straight lines join them.
    ...(course.length > 1 ? [] : [svg('path', { class: 'line', d: path(points, x, y) })]),
    ...(points.length > MAX_MARKS ? [] : points.map((point) => mark(point, x, y))),
  ];
}

/** From the lowest to the highest thing drawn, with room around it. */
function valueScale(
  points: readonly { readonly low: number; readonly high: number }[],
  target: Panel['target'],
  top: number,
): Value {
  const values = points.flatMap(({ low, high }) => [low, high]).concat(target ? [target.low, target.high] : []);
  const low = Math.min(...values);
  const high = Math.max(...values);
  const room = (high - low || Math.abs(high) || 1) * 0.08;
  return scaleLinear([Math.max(0, low - room), high + room], [top + PANEL, top]);
}

function targetSpan({ low, high }: { low: number; high: number }, y: Value, from: number, to: number, hatch: string) {
  const edges = [high, low].map((value) =>
    svg('line', { class: 'target', x1: from, x2: to, y1: y(value), y2: y(value) }),
  );
  const box = { x: from, y: y(high), width: to - from, height: Math.max(0, y(low) - y(high)) };
  return [svg('rect', { ...box, fill: `url(#${hatch})` }), ...edges];
}

function at(point: TrendPoint, x: Time): number {
  return round(x(new Date(point.time)));
}

/** Breaks where nothing was read for weeks. */
function path(points: readonly TrendPoint[], x: Time, y: Value): string {
  const draw = line<TrendPoint>(
    (point) => at(point, x),
    ({ value }) => round(y(value)),
  );
  return runs(points)
    .map((run) => draw(run) ?? '')
    .join('');
}

function band(points: readonly TrendPoint[], x: Time, y: Value): SvgNode {
  const draw = area<TrendPoint>(
    (point) => at(point, x),
    ({ low }) => round(y(low)),
    ({ high }) => round(y(high)),
  );
  return svg('path', {
    class: 'band',
    d: runs(points)
      .map((run) => draw(run) ?? '')
      .join(''),
  });
}

/** A frame that the next reading should come to lie in: wide enough to be seen about that reading's mark. */
function predicted({ from, to, low, high }: Prediction, x: Time, y: Value): SvgNode {
  const right = x(new Date(to)) + FRAME_PAD;
  const left = Math.min(x(new Date(from)), right - 2 * FRAME_PAD);
  return svg('rect', {
    class: 'predicted',
    x: round(left),
    y: round(y(high)),
    width: round(right - left),
    height: Math.max(3, round(y(low) - y(high))),
  });
}
const FRAME_PAD = 7;

function courseMarks(course: readonly CoursePoint[], x: Time, y: Value): SvgNode[] {
  if (course.length < 2) return [];
  const across = (point: CoursePoint) => round(x(new Date(point.time)));
  const within = area<CoursePoint>(
    across,
    ({ low }) => round(y(low)),
    ({ high }) => round(y(high)),
  );
  const middle = line<CoursePoint>(across, ({ value }) => round(y(value)));
  return [
    svg('path', { class: 'course-band', d: within(course) ?? '' }),
    svg('path', { class: 'course', d: middle(course) ?? '' }),
  ];
}

function runs(points: readonly TrendPoint[]): TrendPoint[][] {
  const all: TrendPoint[][] = [];
  points.forEach((point, i) => {
    const before = points[i - 1];
    if (before && Date.parse(point.time) - Date.parse(before.time) <= LONGEST_GAP_MILLIS) all.at(-1)!.push(point);
    else all.push([point]);
  });
  return all;
}

function whisker(point: TrendPoint, x: Time, y: Value): SvgNode {
  const [cx, low, high] = [at(point, x), round(y(point.low)), round(y(point.high))];
  return svg('path', {
    class: 'whisker',
    d: low === high ? '' : `M${cx} ${low}V${high}M${cx - 3} ${low}h6M${cx - 3} ${high}h6`,
  });
}

function mark(point: TrendPoint, x: Time, y: Value): SvgNode {
  const [cx, cy] = [at(point, x), round(y(point.value))];
  if (point.offScale === 'above') return svg('path', { class: 'mark', d: `M${cx - 5} ${cy + 3}h10l-5 -9z` });
  if (point.offScale === 'below') return svg('path', { class: 'mark', d: `M${cx - 5} ${cy - 3}h10l-5 9z` });
  if (point.byHand) return svg('path', { class: 'mark by-hand', d: `M${cx} ${cy - 5}l5 5 -5 5 -5 -5z` });
  return svg('circle', { class: 'mark', cx, cy, r: 3.4 });
}

interface Letter {
  readonly letter: string;
  readonly at: number;
  readonly row: number;
  /** Not where the same stands already, or no row has room. */
  readonly isTold: boolean;
}

/** Each letter in the first row that has room for it; one that stands there already isn't written twice. */
function inRows(additions: readonly ChartAddition[], x: Time): Letter[] {
  const placed: Letter[] = [];
  for (const { time, letter } of additions) {
    const at = round(x(new Date(time)));
    const near = placed.filter((other) => other.isTold && Math.abs(other.at - at) < LETTER_WIDTH);
    const row = Array.from({ length: MAX_LETTER_ROWS }, (_, i) => i).find((i) => near.every((one) => one.row !== i));
    const isTold = row !== undefined && near.every((other) => other.letter !== letter);
    placed.push({ letter, at, row: row ?? 0, isTold });
  }
  return placed;
}

function additionMarks({ letter, at, row, isTold }: Letter, y: number): SvgNode[] {
  return [
    svg('line', { class: 'addition', x1: at, x2: at, y1: TOP, y2: y + 4 }),
    ...(isTold
      ? [svg('text', { class: 'letter', x: at, y: y + LETTERS * (row + 1), 'text-anchor': 'middle' }, letter)]
      : []),
  ];
}

function timeAxis(x: Time, y: number): SvgNode[] {
  const [from, to] = [x.range()[0]!, x.range()[1]!];
  const ticks = x.ticks(Math.max(2, Math.floor((to - from) / 90)));
  const format = timeFormat(x.domain());
  return [
    svg('line', { class: 'axis', x1: from, x2: to, y1: y, y2: y }),
    ...ticks.flatMap((tick) => [
      svg('line', { class: 'axis', x1: round(x(tick)), x2: round(x(tick)), y1: y, y2: y + 5 }),
      svg('text', { class: 'tick', x: round(x(tick)), y: y + 19, 'text-anchor': 'middle' }, format(tick)),
    ]),
  ];
}

function timeFormat([from, to]: Date[]): (time: Date) => string {
  const days = (to!.getTime() - from!.getTime()) / 86_400_000;
  const options: Intl.DateTimeFormatOptions =
    days < 3
      ? { day: 'numeric', month: 'short', hour: '2-digit', minute: '2-digit' }
      : days < 300
        ? { day: 'numeric', month: 'short' }
        : { month: 'short', year: '2-digit' };
  const format = dateFormat(options);
  return (time) => format.format(time);
}

function round(value: number): number {
  return Math.round(value * 10) / 10;
}
