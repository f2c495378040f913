/** Every reading of the season, one row each. */
import type { Entry } from '../../core/log/schema.ts';
import { parametersOf, seriesOf } from '../../core/log/trends.ts';
import { parameterName } from '../../words/reading.ts';
import { h } from '../dom.ts';
import { formatInterval } from '../../words/numbers.ts';
import { table } from './report-parts.ts';
import { valueText, wordLine } from './trend-view.ts';
import { wallText } from '../../words/dates.ts';

export function readingsTable(entries: readonly Entry[]): HTMLElement | null {
  const parameters = parametersOf(entries);
  if (parameters.length === 0) return null;
  const rows = entries
    .filter((entry) => entry.kind === 'reading')
    .map((entry) => {
      const options = { day: 'numeric', month: 'short', year: '2-digit', hour: '2-digit', minute: '2-digit' } as const;
      const cells = parameters.map((parameter) => {
        const point = seriesOf([entry], parameter)[0];
        if (!point) return h('td', {});
        const unit = parameter === 'ph' ? 'pH' : 'mg/L';
        const span = point.byHand || point.offScale ? '' : ` ${formatInterval(point.low, point.high, unit)}`;
        const figures = h(
          'span',
          { class: 'figures' },
          valueText(point, parameter),
          h('span', { class: 'span' }, span),
        );
        return h('td', {}, h('span', { class: 'cell' }, figures, wordLine(point)));
      });
      return h('tr', {}, h('th', { scope: 'row' }, wallText(entry.time, entry.zoneMinutes, options)), ...cells);
    });
  return table(['When', ...parameters.map((id) => (id === 'ph' ? 'pH' : `${parameterName(id)}, mg/L`))], rows);
}
