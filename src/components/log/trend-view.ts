/** The chart and, beside it, its table and the key to its letters. */
import type { AdditionEntry, Entry } from '../../core/log/schema.ts';
import { parametersOf, seriesOf, type TrendPoint } from '../../core/log/trends.ts';
import type { PadQuantity } from '../../core/measurement/quantities.ts';
import { parameterName } from '../../words/reading.ts';
import { h } from '../dom.ts';
import { formatInterval, formatMeasured, formatValue } from '../../words/numbers.ts';
import type { Spans } from '../../core/reading/spans.ts';
import { toElement } from '../svg.ts';
import { drawChart, type Panel } from './chart.ts';
import { wordText } from './measures.ts';
import { AGENT_WORDS, UNIT_WORDS } from '../../words/log.ts';
import { dateText, wallText } from '../../words/dates.ts';
import { countText } from '../../words/grammar.ts';

const MOST_ROWS = 120;

export interface TrendData {
  /** In the order of time. */
  readonly entries: readonly Entry[];
  readonly spans: Spans;
  readonly from: string;
  readonly to: string;
}

export function trendView(data: TrendData, width: number): HTMLElement {
  const { entries, from, to } = data;
  const panels = panelsOf(data);
  const additions = entries.filter((entry) => entry.kind === 'addition');
  if (panels.length === 0) return h('p', { class: 'hint' }, 'No reading falls into this time.');
  const chart = drawChart({
    panels,
    additions: additions.map(({ time, agent }) => ({ time, letter: AGENT_WORDS[agent].letter })),
    from,
    to,
    width,
    description: descriptionOf(panels, additions.length, from, to),
  });
  return h(
    'div',
    { class: 'trend-columns' },
    h('figure', {}, wrap(chart), h('figcaption', {}, keyText(data, additions))),
    h(
      'div',
      { class: 'trend-table', tabindex: 0, role: 'region', 'aria-label': 'The same as a table' },
      table(entries),
    ),
  );
}

function wrap(chart: ReturnType<typeof drawChart>): HTMLElement {
  const frame = h('div', { class: 'chart' });
  frame.append(toElement(chart));
  return frame;
}

export function panelsOf({ entries, spans }: Pick<TrendData, 'entries' | 'spans'>): Panel[] {
  return parametersOf(entries).map((parameter) => ({
    parameter,
    title: parameter === 'ph' ? 'pH' : `${parameterName(parameter)}, mg/L`,
    points: seriesOf(entries, parameter),
    target: spans[parameter] ?? null,
  }));
}

function descriptionOf(panels: readonly Panel[], additions: number, from: string, to: string): string {
  const lines = panels.map(({ parameter, points }) => {
    const last = points.at(-1)!;
    return `${parameterName(parameter)}: ${countText(points.length, 'reading', 'readings')}, the last ${valueText(last, parameter)}.`;
  });
  const what = countText(additions, 'addition', 'additions');
  return `Readings from ${dateText(from)} to ${dateText(to)}. ${lines.join(' ')} ${what} on the same axis. The table holds the same numbers.`;
}

function unitOf(parameter: PadQuantity): 'pH' | 'mg/L' {
  return parameter === 'ph' ? 'pH' : 'mg/L';
}

export function valueText({ value, offScale, byHand }: TrendPoint, parameter: PadQuantity): string {
  if (byHand) return formatValue(value);
  const shown = formatMeasured(value, unitOf(parameter));
  return offScale === null ? shown : `${offScale === 'above' ? 'over' : 'under'} ${shown}`;
}

/** What was said of it on the day, hedge included. */
export function wordLine({ said, byHand }: TrendPoint): HTMLElement | null {
  const text = wordText(said, byHand);
  return text ? h('span', { class: 'span said' }, ` ${text}`) : null;
}

function keyText({ spans }: TrendData, additions: readonly AdditionEntry[]): string {
  const agents = [...new Set(additions.map(({ agent }) => agent))];
  const letters = agents.map((agent) => `${AGENT_WORDS[agent].letter} ${AGENT_WORDS[agent].words}`).join(', ');
  return [
    'Points are photos, diamonds values by hand; the bars or the band show where nine readings in ten should lie.',
    Object.keys(spans).length > 0 ? 'Hatched: where the reading should be.' : '',
    letters ? `Lines with letters, what went in: ${letters}.` : '',
  ]
    .filter(Boolean)
    .join(' ');
}

/** The newest first, one row an entry. */
function table(entries: readonly Entry[]): HTMLElement {
  const parameters = parametersOf(entries);
  const shown = entries.filter(({ kind }) => kind === 'reading' || kind === 'addition').reverse();
  const rows = shown.slice(0, MOST_ROWS).map((entry) => row(entry, parameters));
  const head = ['When', ...parameters.map(parameterName)].map((name) => h('th', { scope: 'col' }, name));
  const caption =
    shown.length > MOST_ROWS
      ? `The newest ${MOST_ROWS} of ${shown.length}; the table that can be saved has all. In mg/L, pH apart.`
      : 'In mg/L, pH apart.';
  return h('table', {}, h('caption', {}, caption), h('thead', {}, h('tr', {}, ...head)), h('tbody', {}, ...rows));
}

function row(entry: Entry, parameters: readonly PadQuantity[]): HTMLElement {
  const options = { day: 'numeric', month: 'short', hour: '2-digit', minute: '2-digit' } as const;
  const when = h('th', { scope: 'row' }, wallText(entry.time, entry.zoneMinutes, options));
  if (entry.kind === 'addition') {
    const amount = `added: ${formatValue(entry.amount)} ${UNIT_WORDS[entry.unit]} `;
    return h('tr', {}, when, h('td', { colspan: parameters.length }, amount, h('bdi', {}, entry.product)));
  }
  const cells = parameters.map((parameter) => {
    const point = seriesOf([entry], parameter)[0];
    if (!point) return h('td', {});
    const span = point.byHand || point.offScale ? '' : formatInterval(point.low, point.high, unitOf(parameter));
    return h(
      'td',
      {},
      valueText(point, parameter),
      span ? h('span', { class: 'span' }, ` ${span}`) : null,
      wordLine(point),
    );
  });
  return h('tr', {}, when, ...cells);
}
