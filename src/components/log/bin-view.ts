/** What was deleted and can still be had back. */
import type { BinRecord } from '../../browser/store/tables.ts';
import { h } from '../dom.ts';
import { KINDS } from '../../words/log.ts';
import { momentText } from '../../words/dates.ts';
import { countText } from '../../words/grammar.ts';

interface BinActions {
  readonly onBack: (record: BinRecord) => void;
  readonly onEmpty: () => void;
}

/** @param records one at least */
export function binView(records: readonly BinRecord[], { onBack, onEmpty }: BinActions): HTMLElement[] {
  const lines = [...records]
    .sort((a, b) => (a.deleted < b.deleted ? 1 : -1))
    .map((record) => {
      const button = h('button', { type: 'button', class: 'plain' }, 'Put back');
      button.addEventListener('click', () => onBack(record));
      return h('li', {}, h('bdi', {}, contentText(record)), `, deleted ${momentText(record.deleted)}. `, button);
    });
  const empty = h('button', { type: 'button' }, 'Empty the bin for good');
  empty.addEventListener('click', onEmpty);
  const summary = h('summary', {}, `The bin: ${countText(records.length, 'deletion', 'deletions')}`);
  return [h('details', {}, summary, h('ul', {}, ...lines), empty)];
}

function contentText({ entries, pool, scale }: BinRecord): string {
  if (scale) return `Strip scale ${scale.name}`;
  if (pool) return `${pool.name} with ${countText(entries.length, 'entry', 'entries')}`;
  const first = entries[0];
  return first && entries.length === 1
    ? `${KINDS[first.kind]} of ${momentText(first.time)}`
    : countText(entries.length, 'entry', 'entries');
}
