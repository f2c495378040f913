/** The browser has thrown the logbook away under the open page: what the page holds can be saved, or put back. */
import type { Logbook } from '../../browser/store/logbook.ts';
import type { Operation } from '../../browser/store/tables.ts';
import type { Entry, LogData } from '../../core/log/schema.ts';
import { h } from '../dom.ts';
import { NOTICES } from '../../words/log.ts';
import { countText } from '../../words/grammar.ts';

/** @param onPutBack puts back what is held and shows the logbook as it then is */
export function thrownAwayView(
  held: LogData,
  { onPutBack, onSave }: { readonly onPutBack: () => void; readonly onSave: () => void },
): HTMLElement {
  const back = h('button', { type: 'button', class: 'primary' }, 'Put it back');
  back.addEventListener('click', onPutBack);
  const save = h('button', { type: 'button' }, 'Save it to a file');
  save.addEventListener('click', onSave);
  const many = countText(held.entries.length, 'entry', 'entries');
  return h(
    'div',
    { class: 'wrong thrown-away' },
    h(
      'p',
      {},
      `${NOTICES.emptied} This page still holds ${many}, without pictures, and goes on showing them. What you write down now goes into a new, empty logbook.`,
    ),
    h('p', { class: 'buttons' }, back, ' ', save),
  );
}

/** What was written down since then stays. */
export async function putBack(logbook: Logbook, { pools, entries }: LogData): Promise<void> {
  const [poolIds, entryIds] = [new Set(await logbook.store.ids('pools')), new Set(await logbook.store.ids('entries'))];
  const operations: Operation[] = [
    ...pools.filter(({ id }) => !poolIds.has(id)).map((pool) => ({ table: 'pools', put: pool }) as const),
    ...entries
      .filter(({ id }) => !entryIds.has(id))
      .map((entry) => ({ table: 'entries', put: withoutPicture(entry) }) as const),
  ];
  await logbook.write({ operations });
}

function withoutPicture(entry: Entry): Entry {
  return entry.kind === 'reading' ? { ...entry, pictureId: null } : entry;
}
