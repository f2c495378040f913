/** Every reading of the season, one row each. */
import type { Entry } from '../../core/log/schema.ts';
import { quantitiesIn, seriesOf } from '../../core/log/trends.ts';
import { h } from '../dom.ts';
import { quantityWithUnit } from '../keep/measures.ts';
import { table } from './report-parts.ts';
import { spanText, valueText, wordLine } from './trend-view.ts';
import { wallText } from '../../words/dates.ts';

export function readingsTable(entries: readonly Entry[]): HTMLElement | null {
  const quantities = quantitiesIn(entries);
  if (quantities.length === 0) return null;
  const rows = entries
    .filter((entry) => entry.kind === 'reading')
    .map((entry) => {
      const options = { day: 'numeric', month: 'short', year: '2-digit', hour: '2-digit', minute: '2-digit' } as const;
      const cells = quantities.map((quantity) => {
        const point = seriesOf([entry], quantity)[0];
        if (!point) return h('td', {});
        const span = spanText(point, quantity);
        const figures = h(
          'span',
          { class: 'figures' },
          valueText(point, quantity),
          h('span', { class: 'span' }, span && ` ${span}`),
        );
        return h('td', {}, h('span', { class: 'cell' }, figures, wordLine(point)));
      });
      return h('tr', {}, h('th', { scope: 'row' }, wallText(entry.time, entry.zoneMinutes, options)), ...cells);
    });
  return table(['When', ...quantities.map(quantityWithUnit)], rows);
}
