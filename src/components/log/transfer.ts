/** In and out: saving copies, bringing files in with a look at what they would do, and taking that back. */
import '../../browser/zod-setup.ts';
import { toStoreError } from '../../browser/store/failure.ts';
import type { Logbook } from '../../browser/store/logbook.ts';
import type { FileQuestion, FileStage } from '../../browser/store/read-file.ts';
import type { ChoiceGroup } from '../../core/log/choices.ts';
import type { ImportRecord } from '../../core/log/undo.ts';
import { h, need } from '../dom.ts';
import { showTheme } from '../theme.ts';
import type { Preview } from './import.ts';
import { lastCopy } from './last-copy.ts';
import { failureText, fileFailureText } from '../../words/log.ts';
import { dateText } from '../../words/dates.ts';
import { countText } from '../../words/grammar.ts';

const STAGES: Record<FileStage, string> = {
  reading: 'reading the file',
  checking: 'checking what is in it',
  comparing: 'comparing it with the logbook',
};

export class Transfer {
  readonly #root: HTMLElement;
  readonly #logbook: Logbook;
  readonly #drawn: () => Promise<void>;

  /** @param drawn settles once the page shows what the logbook holds: before that nothing is said to be done */
  constructor(root: HTMLElement, logbook: Logbook, drawn: () => Promise<void>) {
    this.#root = root;
    this.#logbook = logbook;
    this.#drawn = drawn;
    const save = (selector: string, run: (logbook: Logbook) => Promise<void>) =>
      need(root, selector).addEventListener('click', () => {
        void run(logbook).then(
          () => this.show(),
          (error: unknown) => this.#failed(error),
        );
      });
    save('[data-save=json]', async (all) => (await import('./export.ts')).exportJson(all));
    save('[data-save=csv]', async (all) => (await import('./export.ts')).exportCsv(all));
    const input = need<HTMLInputElement>(root, 'input[type=file]');
    input.addEventListener('change', () => {
      const file = input.files?.[0];
      input.value = '';
      if (file) void this.#open(file).catch((error: unknown) => this.#failed(error));
    });
  }

  /** How old the last copy is, and which files were brought in. */
  async show(): Promise<void> {
    (await this.look())();
  }

  /** Looks into the store. @returns shows what was found */
  async look(): Promise<() => void> {
    const { store } = this.#logbook;
    const [entries, imports] = await Promise.all([store.count('entries'), store.all('imports')]);
    const records = imports.sort((a, b) => (a.time < b.time ? 1 : -1));
    return () => {
      need(this.#root, '.copy-state').textContent = copyText(entries);
      need(this.#root, '.imports').replaceChildren(...records.map((record) => this.#record(record)));
    };
  }

  async #open(file: File): Promise<void> {
    const [{ MAX_FILE_BYTES, previewFile }, { findInFileBeside }] = await Promise.all([
      import('./import.ts'),
      import('../../browser/store/file-client.ts'),
    ]);
    if (file.size > MAX_FILE_BYTES) return this.#say('The file is larger than 300 MB, more than a browser can open.');
    const cancelling = new AbortController();
    try {
      const onStage = (stage: FileStage) => this.#work(`${file.name}: ${STAGES[stage]}...`, () => cancelling.abort());
      onStage('reading');
      const find = (question: FileQuestion) => findInFileBeside(question, onStage, cancelling.signal);
      const result = await previewFile(this.#logbook, { file, name: file.name }, find);
      if (!result.ok) return this.#say(`${file.name}: ${fileFailureText(result.failure)} Nothing was changed.`);
      await this.#showPreview(result.preview);
    } catch (error) {
      if (!cancelling.signal.aborted) throw error;
      this.#say('Cancelled. Nothing was changed.');
    }
  }

  async #showPreview(preview: Preview): Promise<void> {
    const { previewView } = await import('./preview.ts');
    const view = previewView(preview, {
      onDo: (groups) => void this.#apply(preview, groups),
      onLeave: () => this.#say('Nothing was changed.'),
    });
    need(this.#root, '.preview').replaceChildren(view);
    need(this.#root, '[role=status]').textContent = '';
    need<HTMLElement>(view, 'h3').focus();
  }

  /** What is going on. @param cancel where it can still be stopped */
  #work(text: string, cancel: (() => void) | null): void {
    this.#say(text);
    if (!cancel) return;
    const button = h('button', { type: 'button' }, 'Cancel');
    button.addEventListener('click', cancel);
    need(this.#root, '.preview').replaceChildren(h('p', {}, button));
  }

  async #apply(preview: Preview, groups: ReadonlySet<ChoiceGroup>): Promise<void> {
    try {
      this.#work(`Bringing ${preview.fileName} in...`, null);
      const [{ applyImport }, { importedText }] = await Promise.all([import('./import.ts'), import('./preview.ts')]);
      const isDone = await applyImport(this.#logbook, preview, groups);
      showTheme();
      await this.#drawn();
      this.#say(isDone ? importedText(preview, groups) : 'Nothing was changed.');
    } catch (error) {
      this.#failed(error);
    }
  }

  #record(record: ImportRecord): HTMLElement {
    const button = h('button', { type: 'button', class: 'plain' }, 'Take it back');
    button.addEventListener('click', () => void this.#takeBack(record));
    const { added, replaced, choices } = record;
    const chosen = choices.add.length + choices.replace.length;
    const what = [
      countText(added.entries.length + replaced.entries.length, 'entry', 'entries'),
      ...(chosen > 0 ? [countText(chosen, 'setting or field of the plan', 'settings or fields of the plan')] : []),
    ].join(', ');
    return h('li', {}, h('bdi', {}, record.fileName), `, ${dateText(record.time)}: ${what}. `, button);
  }

  async #takeBack(record: ImportRecord): Promise<void> {
    try {
      this.#work(`Taking back what came with ${record.fileName}...`, null);
      const { takeBack } = await import('./import.ts');
      const kept = await takeBack(this.#logbook, record);
      showTheme();
      await this.#drawn();
      const left = kept === 0 ? '' : ` ${countText(kept, 'thing was', 'things were')} changed since and stay.`;
      this.#say(`What came with ${record.fileName} is gone again.${left}`);
    } catch (error) {
      this.#failed(error);
    }
  }

  #failed(error: unknown): void {
    console.error(error);
    this.#say(failureText(toStoreError(error).failure));
  }

  #say(text: string): void {
    need(this.#root, '.preview').replaceChildren();
    need(this.#root, '[role=status]').textContent = text;
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
