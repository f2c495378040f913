/** Backing up: saving copies, how old the last one is, and which files were brought in. */
import '../../browser/zod-setup.ts';
import { toStoreError } from '../../browser/store/failure.ts';
import type { Logbook } from '../../browser/store/logbook.ts';
import type { ImportRecord } from '../../core/log/undo.ts';
import { h, need } from '../dom.ts';
import type { BringIn } from './bring-in.ts';
import { lastCopy } from '../keep/last-copy.ts';
import { failureText } from '../../words/log.ts';
import { dateText } from '../../words/dates.ts';
import { countText } from '../../words/grammar.ts';

/** What the list of files says of one; the record itself holds all that came with it. */
export type FileLine = Pick<ImportRecord, 'id' | 'time' | 'fileName' | 'choices'> & { readonly entries: number };

export class Transfer {
  readonly #root: HTMLElement;
  readonly #logbook: Logbook;
  readonly #drawn: () => Promise<void>;
  #files: readonly FileLine[] = [];
  #bringing: Promise<BringIn> | null = null;

  /** @param drawn settles once the page shows what the logbook holds: before that nothing is said to be done */
  constructor(root: HTMLElement, logbook: Logbook, drawn: () => Promise<void>) {
    this.#root = root;
    this.#logbook = logbook;
    this.#drawn = drawn;
    const save = (selector: string, run: (logbook: Logbook) => Promise<void>) =>
      need(root, selector).addEventListener('click', () => {
        void run(logbook).then(
          () => this.show(),
          (error: unknown) => {
            console.error(error);
            need(root, '[role=status]').textContent = failureText(toStoreError(error).failure);
          },
        );
      });
    save('[data-save=json]', async (all) => (await import('../keep/export.ts')).exportJson(all));
    save('[data-save=csv]', async (all) => (await import('../keep/export.ts')).exportCsv(all));
    const input = need<HTMLInputElement>(root, 'input[type=file]');
    input.addEventListener('change', () => {
      const file = input.files?.[0];
      input.value = '';
      if (file) void this.#bringIn().then((desk) => desk.open(file));
    });
  }

  /** How old the last copy is, and which files were brought in. */
  async show(): Promise<void> {
    (await this.look())();
  }

  /** Looks into the store. @returns shows what was found */
  async look(): Promise<() => void> {
    const { store } = this.#logbook;
    const [entries, ids] = await Promise.all([store.count('entries'), store.ids('imports')]);
    const files = await Promise.all(ids.map((id) => this.#files.find((file) => file.id === id) ?? this.#lineOf(id)));
    this.#files = files.filter((file) => file !== null).sort((a, b) => (a.time < b.time ? 1 : -1));
    return () => {
      need(this.#root, '.copy-state').textContent = copyText(entries);
      need(this.#root, '.imports').replaceChildren(...this.#files.map((file) => this.#record(file)));
    };
  }

  async #lineOf(id: string): Promise<FileLine | null> {
    const record = await this.#logbook.store.get('imports', id);
    if (!record) return null;
    const { time, fileName, choices, added, replaced } = record;
    return { id, time, fileName, choices, entries: added.entries.length + replaced.entries.length };
  }

  #bringIn(): Promise<BringIn> {
    this.#bringing ??= import('./bring-in.ts').then(
      ({ BringIn }) => new BringIn(this.#root, this.#logbook, this.#drawn),
    );
    return this.#bringing;
  }

  #record(file: FileLine): HTMLElement {
    const button = h('button', { type: 'button', class: 'plain' }, 'Take it back');
    button.addEventListener('click', () => void this.#bringIn().then((desk) => desk.takeBack(file)));
    const { fileName, time, entries, choices } = file;
    const chosen = choices.add.length + choices.replace.length;
    const what = [
      countText(entries, 'entry', 'entries'),
      ...(chosen > 0 ? [countText(chosen, 'setting or field of the plan', 'settings or fields of the plan')] : []),
    ].join(', ');
    return h('li', {}, h('bdi', {}, fileName), `, ${dateText(time)}: ${what}. `, button);
  }
}

function copyText(entries: number): string {
  const copy = lastCopy();
  if (copy) {
    const since = entries - copy.entries;
    const more = since > 0 ? ` ${countText(since, 'entry has', 'entries have')} been written since.` : '';
    return `The last copy was saved on ${dateText(copy.time)}.${more}`;
  }
  return entries === 0
    ? ''
    : 'No copy has been saved yet. The logbook is only in this browser: a lost phone or a cleared browser takes it along.';
}
