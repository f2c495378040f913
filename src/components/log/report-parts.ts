/** The parts of the season report, but for the long table. */
import { convert } from '../../core/water/units.ts';
import type { AdditionEntry, AmountUnit, Entry } from '../../core/log/schema.ts';
import { seriesOf, summarise } from '../../core/log/trends.ts';
import { settings } from '../../browser/settings.ts';
import { h } from '../dom.ts';
import { formatValue, numberText } from '../../words/numbers.ts';
import { toElement } from '../svg.ts';
import { drawChart } from './chart.ts';
import { weatherText } from './entry-view.ts';
import { shownValue } from '../keep/measures.ts';
import { panelsOf, type TrendData } from './trend-view.ts';
import { AGENT_WORDS } from '../../words/log.ts';
import { wallText } from '../../words/dates.ts';

export interface ReportData extends TrendData {
  /** In the order of time. */
  readonly entries: readonly Entry[];
}

/** Fits the width of a page with ordinary margins. */
const PAPER_WIDTH = 660;

export function summaryTable({ entries, trend, spans }: ReportData): HTMLElement | null {
  const rows = panelsOf({ trend, spans }).map(({ quantity, title, target }) => {
    const summary = summarise(seriesOf(entries, quantity), target)!;
    const inside =
      summary.inTarget === null ? '' : insideText(summary.inTarget, summary.surelyInTarget ?? 0, summary.count);
    const should = target ? `${formatValue(target.low)} to ${formatValue(target.high)}` : '';
    const cells = [summary.lowest, summary.median, summary.highest].map((value) => shownValue(quantity, value, false));
    return h(
      'tr',
      {},
      h('th', { scope: 'row' }, title),
      ...[String(summary.count), ...cells, should, inside].map((text) => h('td', {}, text)),
    );
  });
  if (rows.length === 0) return null;
  const head = ['reading', 'readings', 'lowest', 'median', 'highest', 'should be', 'was there'];
  return table(head, rows);
}

/** "5 of 8, certain in 3": the others' intervals reach beyond the span. */
function insideText(inside: number, surely: number, count: number): string {
  return `${inside} of ${count}${surely < inside ? `, certain in ${surely}` : ''}`;
}

/** @param width of the screen's place, CSS pixels; paper has its own */
export function chartFigure(data: ReportData, width: number): HTMLElement | null {
  const panels = panelsOf(data);
  if (panels.length === 0) return null;
  const { additions } = data.trend;
  const agents = [...new Set(additions.map(({ agent }) => agent))].map((agent) => AGENT_WORDS[agent]);
  const draw = (chartWidth: number, only: string | null) => {
    const chart = drawChart({
      panels,
      additions: additions.map(({ time, agent }) => ({ time, letter: AGENT_WORDS[agent].letter })),
      from: data.from,
      to: data.to,
      width: chartWidth,
      description: 'Every reading of the table below, over time.',
    });
    const frame = h('div', { class: ['chart', only].filter(Boolean).join(' ') });
    frame.append(toElement(chart));
    return frame;
  };
  const charts =
    width < PAPER_WIDTH ? [draw(width, 'no-print'), draw(PAPER_WIDTH, 'print-only')] : [draw(PAPER_WIDTH, null)];
  return h(
    'figure',
    {},
    ...charts,
    h('figcaption', {}, agents.map(({ letter, words }) => `${letter} ${words}`).join(', ')),
  );
}

/** Sums for each product; what was weighed and what was measured by volume stay apart. */
export function additionsTable(entries: readonly Entry[]): HTMLElement | null {
  const sums = new Map<string, { product: string; count: number; base: number; isVolume: boolean }>();
  for (const entry of entries.filter((each): each is AdditionEntry => each.kind === 'addition')) {
    const { isVolume, base } = inBase(entry.amount, entry.unit);
    const key = `${entry.product}\n${isVolume}`;
    const sum = sums.get(key) ?? { product: entry.product, count: 0, base: 0, isVolume };
    sums.set(key, { ...sum, count: sum.count + 1, base: sum.base + base });
  }
  if (sums.size === 0) return null;
  const rows = [...sums.values()].map(({ product, count, base, isVolume }) =>
    h(
      'tr',
      {},
      h('th', { scope: 'row' }, h('bdi', {}, product)),
      h('td', {}, String(count)),
      h('td', {}, sumText(base, isVolume)),
    ),
  );
  return table(['what', 'times', 'altogether'], rows);
}

/** Litres or kilograms. */
function inBase(amount: number, unit: AmountUnit): { isVolume: boolean; base: number } {
  switch (unit) {
    case 'mL':
    case 'L':
    case 'fl oz':
    case 'gal':
      return { isVolume: true, base: convert('volume', amount, unit, 'L') };
    default:
      return { isVolume: false, base: convert('mass', amount, unit, 'kg') };
  }
}

/** In the larger unit from one of it on: "0.8 L" is "800 mL", "0.21 US gal" is "27 fl oz". */
function sumText(base: number, isVolume: boolean): string {
  const [large, inLarge, small, inSmall] = sumUnits(base, isVolume);
  const [value, unit] = inLarge >= 1 ? [inLarge, large] : [inSmall, small];
  return `${numberText(value, { figures: 3 })} ${unit}`;
}

function sumUnits(base: number, isVolume: boolean): [string, number, string, number] {
  if (settings.units() !== 'us') return isVolume ? ['L', base, 'mL', base * 1000] : ['kg', base, 'g', base * 1000];
  return isVolume
    ? ['US gal', convert('volume', base, 'L', 'gal'), 'fl oz', convert('volume', base, 'L', 'fl oz')]
    : ['lb', convert('mass', base, 'kg', 'lb'), 'oz by weight', convert('mass', base, 'kg', 'oz')];
}

export function remarks(entries: readonly Entry[]): HTMLElement | null {
  const lines = entries
    .filter((entry) => entry.kind === 'weather' || entry.note !== '')
    .map((entry) => {
      const when = wallText(entry.time, entry.zoneMinutes, { day: 'numeric', month: 'short' });
      const weather = entry.kind === 'weather' ? `${weatherText(entry)} ` : '';
      return h('li', {}, h('b', {}, when), ` ${weather}`, h('bdi', { class: 'note' }, entry.note));
    });
  return lines.length > 0 ? h('ul', { class: 'remarks' }, ...lines) : null;
}

export function table(head: readonly string[], rows: readonly HTMLElement[]): HTMLElement {
  const columns = head.map((name) => h('th', { scope: 'col' }, name));
  // On a narrow screen a row is a list, and each cell says what it is.
  for (const row of rows)
    [...row.children].forEach((cell, i) => ((cell as HTMLElement).dataset['head'] = head[i] ?? ''));
  return h('table', {}, h('thead', {}, h('tr', {}, ...columns)), h('tbody', {}, ...rows));
}
