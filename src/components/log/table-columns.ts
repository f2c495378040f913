/** What the columns of an ordinary table were taken for, each to be changed. */
import { MEANINGS, type TableChoice, type TableFound } from '../../core/log/wide-table.ts';
import { DATE_ORDERS, meaningText, TABLE } from '../../words/table.ts';
import { h } from '../dom.ts';

export function tableColumns(
  { headers, meanings, monthFirst, isOrderOpen }: TableFound,
  onChange: (choice: TableChoice) => void,
): HTMLElement {
  const selects = headers.map((header, i) => {
    const options = MEANINGS.map((meaning) =>
      h('option', { value: meaning, selected: meaning === meanings[i] }, meaningText(meaning)),
    );
    return h('select', { 'aria-label': TABLE.column(header) }, ...options);
  });
  const orders = DATE_ORDERS.map(({ name }, i) => h('option', { value: i, selected: monthFirst === (i === 1) }, name));
  const order = h('select', { id: 'date-order' }, ...orders);
  const changed = () =>
    onChange({
      meanings: selects.map(({ selectedIndex }) => MEANINGS[selectedIndex]!),
      monthFirst: order.value === '1',
    });
  for (const select of [...selects, order]) select.addEventListener('change', changed);
  return h(
    'details',
    { class: 'table-columns', open: isOrderOpen || meanings.includes('none') },
    h('summary', {}, TABLE.title),
    h(
      'ul',
      {},
      ...headers.map((header, i) =>
        h('li', {}, h('bdi', {}, header === '' ? TABLE.unnamed : header), ' ', selects[i]!),
      ),
    ),
    isOrderOpen ? h('p', {}, h('label', { for: 'date-order' }, TABLE.order), ' ', order) : null,
  );
}
