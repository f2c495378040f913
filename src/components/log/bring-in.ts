/** Bringing files in, with a look at what they would do, and taking that back. */
import { isAbort } from '../../browser/abort.ts';
import { toStoreError } from '../../browser/store/failure.ts';
import type { Desk } from '../../browser/store/file-desk.ts';
import type { Logbook } from '../../browser/store/logbook.ts';
import type { FileStage } from '../../browser/store/read-file.ts';
import type { ChoiceGroup } from '../../core/log/choices.ts';
import type { TableChoice } from '../../core/log/wide-table.ts';
import { failureText, fileFailureText } from '../../words/log.ts';
import { countText } from '../../words/grammar.ts';
import { h, need, say } from '../dom.ts';
import { showTheme } from '../theme.ts';
import type { Preview } from './import.ts';
import type { FileLine } from './transfer.ts';

const STAGES: Record<FileStage, string> = {
  reading: 'reading the file',
  checking: 'checking what is in it',
  comparing: 'comparing it with the logbook',
  writing: 'writing it down',
};

export class BringIn {
  readonly #root: HTMLElement;
  readonly #logbook: Logbook;
  readonly #drawn: () => Promise<void>;
  /** Waits for the visitor's word, and holds the file until then. */
  #waiting: Desk | null = null;

  /** @param drawn settles once the page shows what the logbook holds: before that nothing is said to be done */
  constructor(root: HTMLElement, logbook: Logbook, drawn: () => Promise<void>) {
    this.#root = root;
    this.#logbook = logbook;
    this.#drawn = drawn;
  }

  /** Beside the page where that can reach the store. Ends with an AbortError when the visitor cancels. */
  async #desk(fileName: string, begins: FileStage): Promise<Desk> {
    const { store } = this.#logbook;
    this.#waiting?.close();
    const onStage = (stage: FileStage) => this.#work(fileName, stage, desk);
    const desk: Desk =
      store.kind === 'kept'
        ? new (await import('../../browser/store/file-client.ts')).DeskBeside(onStage)
        : new (await import('../../browser/store/file-desk.ts')).FileDesk(store, onStage);
    onStage(begins);
    return desk;
  }

  async open(file: File, table?: TableChoice): Promise<void> {
    const { MAX_FILE_BYTES, previewFile } = await import('./import.ts');
    if (file.size > MAX_FILE_BYTES) return this.#say('The file is larger than 300 MB, more than a browser can open.');
    const desk = await this.#desk(file.name, 'reading');
    let isShown = false;
    try {
      const result = await previewFile(this.#logbook, { file, name: file.name }, desk, table);
      if (!result.ok) return this.#say(`${file.name}: ${fileFailureText(result.failure)} Nothing was changed.`);
      await this.#showPreview(result.preview, desk, (choice) => void this.open(file, choice));
      isShown = true;
    } catch (error) {
      this.#failed(error);
    } finally {
      if (!isShown) desk.close();
    }
  }

  async #showPreview(preview: Preview, desk: Desk, onTable: (choice: TableChoice) => void): Promise<void> {
    const { previewView } = await import('./preview.ts');
    this.#waiting = desk;
    const view = previewView(preview, {
      onDo: (groups) => void this.#apply(preview, desk, groups),
      onLeave: () => {
        desk.close();
        this.#say('Nothing was changed.');
      },
      onTable,
    });
    need(this.#root, '.preview').replaceChildren(view);
    need(this.#root, '[role=status]').textContent = '';
    need<HTMLElement>(view, 'h3').focus();
  }

  /** What is going on, and a way to stop it. */
  #work(fileName: string, stage: FileStage, desk: Desk): void {
    this.#say(`${fileName}: ${STAGES[stage]}...`);
    const button = h('button', { type: 'button' }, 'Cancel');
    button.addEventListener('click', () => desk.close());
    need(this.#root, '.preview').replaceChildren(h('p', {}, button));
  }

  async #apply(preview: Preview, desk: Desk, groups: ReadonlySet<ChoiceGroup>): Promise<void> {
    this.#waiting = null;
    this.#work(preview.fileName, 'writing', desk);
    try {
      const [{ applyImport }, { importedText }] = await Promise.all([import('./import.ts'), import('./preview.ts')]);
      const isDone = await applyImport(this.#logbook, preview, desk, groups);
      showTheme();
      await this.#drawn();
      this.#say(isDone ? importedText(preview, groups) : 'Nothing was changed.');
    } catch (error) {
      this.#failed(error);
    } finally {
      desk.close();
    }
  }

  async takeBack(file: FileLine): Promise<void> {
    const desk = await this.#desk(file.fileName, 'comparing');
    try {
      const { takeBack } = await import('./import.ts');
      const kept = await takeBack(this.#logbook, file, desk);
      showTheme();
      await this.#drawn();
      const left = kept ? ` ${countText(kept, 'thing was', 'things were')} changed since and stay.` : '';
      this.#say(`What came with ${file.fileName} is gone again.${left}`);
    } catch (error) {
      this.#failed(error);
    } finally {
      desk.close();
    }
  }

  #failed(error: unknown): void {
    if (isAbort(error)) return this.#say('Cancelled. Nothing was changed.');
    console.error(error);
    this.#say(failureText(toStoreError(error).failure));
  }

  #say(text: string): void {
    need(this.#root, '.preview').replaceChildren();
    say(need(this.#root, '[role=status]'), text);
  }
}
