/** The chart and, beside it, its table and the key to its letters. */
import type { AdditionEntry, Entry } from '../../core/log/schema.ts';
import { seriesOf, type Trend, type TrendPoint } from '../../core/log/trends.ts';
import { quantityTitle } from '../../words/quantities.ts';
import type { QuantityId } from '../../core/measurement/quantities.ts';
import { h } from '../dom.ts';
import { formatValue } from '../../words/numbers.ts';
import type { Spans } from '../../core/reading/spans.ts';
import { toElement } from '../svg.ts';
import { drawChart, type Panel, type Prediction } from './chart.ts';
import { fromCelsius, quantityWithUnit, shownSpan, shownValue, wordText } from '../keep/measures.ts';
import { AGENT_WORDS, UNIT_WORDS } from '../../words/log.ts';
import { countText } from '../../words/grammar.ts';
import { dateText, wallText } from '../../words/dates.ts';
import { COURSE_KEY, PREDICTION_KEY } from '../../words/water-now.ts';
import { daysBefore } from '../../core/log/time.ts';
import type { DoseResult } from '../../core/progress/dose-results.ts';
import type { WaterCourse } from '../../core/track/estimate.ts';

export interface TrendData {
  readonly trend: Trend;
  readonly spans: Spans;
  readonly from: string;
  readonly to: string;
  /** What the water was taken for, from a little before `from` on; left out, only the readings are drawn. */
  readonly course?: WaterCourse['course'];
  /** What the doses of plans were to do. */
  readonly doseResults?: readonly DoseResult[];
}

export function trendView(data: TrendData, width: number): HTMLElement {
  const { trend, from, to } = data;
  const { additions } = trend;
  const panels = panelsOf(data);
  if (panels.length === 0) return h('p', { class: 'hint' }, 'No reading falls into this time.');
  const chart = drawChart({
    panels,
    additions: additions.map(({ time, agent }) => ({ time, letter: AGENT_WORDS[agent].letter })),
    from,
    to,
    width,
    description: descriptionOf(data),
  });
  return h(
    'div',
    { class: 'trend-columns' },
    h('figure', {}, wrap(chart), h('figcaption', {}, keyText(data, additions))),
    h('div', { class: 'trend-table', tabindex: 0, role: 'region', 'aria-label': 'The same as a table' }, table(trend)),
  );
}

function wrap(chart: ReturnType<typeof drawChart>): HTMLElement {
  const frame = h('div', { class: 'chart' });
  frame.append(toElement(chart));
  return frame;
}

export function panelsOf({
  trend,
  spans,
  course,
  doseResults = [],
  from = '',
  to = '',
}: Pick<TrendData, 'trend' | 'spans' | 'course' | 'doseResults'> & { from?: string; to?: string }): Panel[] {
  return trend.series.map(({ quantity, points }) => ({
    predictions: predictionsOf(doseResults, quantity, from, to),
    course: (course?.get(quantity) ?? []).filter(({ time }) => time >= from),
    quantity,
    title: quantityWithUnit(quantity),
    points: points.map((point) => inVisitorsUnit(quantity, point)),
    target: spans[quantity] ?? null,
  }));
}

/** As long as it can be looked at: until the reading that does, or a few days. */
function predictionsOf(
  doseResults: readonly DoseResult[],
  quantity: QuantityId,
  from: string,
  to: string,
): Prediction[] {
  return doseResults
    .filter((one) => one.quantity === quantity && one.done >= from && one.done <= to)
    .map(({ done, predicted: { low, high }, reading }) => {
      const end = reading?.time ?? daysBefore(done, -PREDICTION_DAYS);
      return { from: done, to: end < to ? end : to, low, high };
    });
}
const PREDICTION_DAYS = 3;

function inVisitorsUnit(quantity: QuantityId, point: TrendPoint): TrendPoint {
  if (quantity !== 'temperature') return point;
  const { value, low, high } = point;
  return { ...point, value: fromCelsius(value), low: fromCelsius(low), high: fromCelsius(high) };
}

function descriptionOf({ trend: { series, additions }, from, to }: TrendData): string {
  const lines = series.map(({ quantity, points, count }) => {
    const last = valueText(points.at(-1)!, quantity);
    return `${quantityTitle(quantity)}: ${countText(count, 'reading', 'readings')}, the last ${last}.`;
  });
  const what = countText(additions.length, 'addition', 'additions');
  return `Readings from ${dateText(from)} to ${dateText(to)}. ${lines.join(' ')} ${what} on the same axis. The table holds the same numbers.`;
}

export function valueText({ value, offScale, byHand }: TrendPoint, quantity: QuantityId): string {
  const shown = shownValue(quantity, value, byHand);
  return offScale === null ? shown : `${offScale === 'above' ? 'over' : 'under'} ${shown}`;
}

/** Beside the value; nothing where it is beyond the scale. */
export function spanText({ low, high, offScale }: TrendPoint, quantity: QuantityId): string {
  return offScale ? '' : shownSpan(quantity, low, high);
}

/** What was said of it on the day, hedge included. */
export function wordLine({ said }: TrendPoint): HTMLElement | null {
  const text = wordText(said);
  return text ? h('span', { class: 'span said' }, ` ${text}`) : null;
}

function keyText({ spans, course, doseResults = [] }: TrendData, additions: readonly AdditionEntry[]): string {
  const agents = [...new Set(additions.map(({ agent }) => agent))];
  const letters = agents.map((agent) => `${AGENT_WORDS[agent].letter} ${AGENT_WORDS[agent].words}`).join(', ');
  return [
    (course?.size ?? 0) > 0 ? COURSE_KEY : '',
    doseResults.length > 0 ? PREDICTION_KEY : '',
    'Points are photos, diamonds values by hand; the bars or the band show where nine readings in ten should lie.',
    Object.keys(spans).length > 0 ? 'Hatched: where the reading should be.' : '',
    letters ? `Lines with letters, what went in: ${letters}.` : '',
  ]
    .filter(Boolean)
    .join(' ');
}

/** The newest first, one row an entry. */
function table({ series, newest, count }: Trend): HTMLElement {
  const quantities = series.map(({ quantity }) => quantity);
  const rows = newest.map((entry) => row(entry, quantities));
  const head = ['When', ...quantities.map(quantityWithUnit)].map((name) =>
    h('th', { scope: 'col', role: 'columnheader' }, name),
  );
  const caption =
    count > newest.length
      ? `The newest ${newest.length} of ${count}; the table that can be saved has all.`
      : 'Every reading and addition of this time.';
  return h(
    'table',
    { role: 'table', class: 'list-when-narrow' },
    h('caption', {}, caption),
    h('thead', { role: 'rowgroup' }, h('tr', { role: 'row' }, ...head)),
    h('tbody', { role: 'rowgroup' }, ...rows),
  );
}

function row(entry: Entry, quantities: readonly QuantityId[]): HTMLElement {
  const options = { day: 'numeric', month: 'short', hour: '2-digit', minute: '2-digit' } as const;
  const when = h('th', { scope: 'row', role: 'rowheader' }, wallText(entry.time, entry.zoneMinutes, options));
  if (entry.kind === 'addition') {
    const amount = `added: ${formatValue(entry.amount)} ${UNIT_WORDS[entry.unit]} `;
    return h(
      'tr',
      { role: 'row' },
      when,
      h('td', { role: 'cell', colspan: quantities.length }, amount, h('bdi', {}, entry.product)),
    );
  }
  const cells = quantities.map((quantity) => {
    const point = seriesOf([entry], quantity)[0];
    if (!point) return h('td', { role: 'cell' });
    const span = spanText(point, quantity);
    return h(
      'td',
      { role: 'cell', 'data-name': quantityWithUnit(quantity) },
      valueText(point, quantity),
      span ? h('span', { class: 'span' }, ` ${span}`) : null,
      wordLine(point),
    );
  });
  return h('tr', { role: 'row' }, when, ...cells);
}
