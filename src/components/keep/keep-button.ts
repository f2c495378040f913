/** "Keep in the logbook" under a reading sheet. Until it is kept, the page is held: no new edition loads over it. */
import { settings } from '../../browser/settings.ts';
import { changeEntry } from '../../browser/store/changes.ts';
import { toStoreError } from '../../browser/store/failure.ts';
import { newId } from '../../browser/store/ids.ts';
import { type Logbook, openLogbook, wasEmptied } from '../../browser/store/logbook.ts';
import { forgetUnkept } from '../../browser/unkept.ts';
import { holdPage } from '../../browser/unsaved.ts';
import type { ReadingEntry } from '../../core/log/schema.ts';
import { cleanText } from '../../core/text.ts';
import { h } from '../dom.ts';
import { href } from '../href.ts';
import { typedCelsius } from './measures.ts';
import { type ReadingToKeep, toReadingEntry } from './reading-entry.ts';
import { failureText, NOTICES } from '../../words/log.ts';
import { temperatureUnit } from '../../words/units.ts';

interface KeepData {
  /** As the sheet stands at this moment. */
  readonly reading: () => ReadingToKeep;
  /** The flattened card as a JPEG; null where there is none. */
  readonly picture: () => Promise<Uint8Array<ArrayBuffer> | null>;
  /** What was typed into the fields before the page was left. */
  readonly typed: Typed;
  /** Hands on how it stands, to wait in this tab. @returns whether it can */
  readonly onWaiting: (typed: Typed) => boolean;
  readonly onDiscard: () => void;
}

export interface Typed {
  readonly water: string;
  readonly note: string;
}

class KeepReading extends HTMLElement {
  #data!: KeepData;
  #kept: ReadingEntry | null = null;
  #release: (() => void) | null = null;
  readonly #state = h('p', { class: 'hint not-kept' });
  readonly #discard = h('button', { type: 'button', class: 'plain' }, 'Discard this reading');
  readonly #button = h('button', { type: 'button' }, 'Keep in the logbook');
  readonly #said = h('p', { role: 'status', class: 'hint' });
  readonly #temperature = h('input', { id: 'keep-water', inputmode: 'decimal', autocomplete: 'off' });
  readonly #note = h('textarea', { id: 'keep-note', rows: 2, maxlength: 2000 });

  set data(data: KeepData) {
    this.#data = data;
  }

  connectedCallback(): void {
    this.#release = holdPage();
    this.#temperature.value = this.#data.typed.water;
    this.#note.value = this.#data.typed.note;
    this.#discard.addEventListener('click', () => {
      removeEventListener('beforeunload', askBeforeLeaving);
      this.#data.onDiscard();
    });
    this.#wait();
    this.#button.addEventListener('click', () => void this.#keep(true));
    this.replaceChildren(this.#state, this.#more(), this.#button, ' ', this.#discard, this.#said);
    void this.#offerPools();
  }

  disconnectedCallback(): void {
    removeEventListener('beforeunload', askBeforeLeaving);
    this.#release?.();
  }

  /** Only where it would be lost does the browser ask before it leaves the page. */
  #wait(): void {
    const isWaiting = this.#data.onWaiting({ water: this.#temperature.value, note: this.#note.value });
    this.#state.textContent = isWaiting
      ? 'This reading isn’t in the logbook yet. It waits in this tab until you keep it, discard it or read another.'
      : 'This reading isn’t in the logbook yet, and this browser lets nothing wait: leaving the page loses it.';
    if (isWaiting) removeEventListener('beforeunload', askBeforeLeaving);
    else addEventListener('beforeunload', askBeforeLeaving);
  }

  /** Something was corrected. */
  changed(): void {
    if (!this.#kept) return this.#wait();
    this.#button.hidden = false;
    this.#button.textContent = 'Keep the correction';
    this.#said.textContent = '';
  }

  /** What the photo can't know. */
  #more(): HTMLElement {
    const water = h('label', { for: 'keep-water' }, `Water temperature, ${temperatureUnit(settings.units())} `);
    const note = h('label', { for: 'keep-note' }, 'Note ');
    for (const field of [this.#temperature, this.#note]) field.addEventListener('input', () => this.changed());
    return h(
      'details',
      {},
      h('summary', {}, 'Add the water’s temperature or a note'),
      h('p', {}, water, this.#temperature),
      h('p', {}, note, this.#note),
    );
  }

  /** Which pool it was is asked only where there are several. */
  async #offerPools(): Promise<void> {
    const logbook = await openLogbook();
    const pools = await logbook.pools();
    if (pools.length < 2) return;
    const chosen = (await logbook.pool()).id;
    const options = pools.map(({ id, name }) => h('option', { value: id, selected: id === chosen }, name));
    const select = h('select', { id: 'keep-pool' }, ...options);
    select.addEventListener('change', () => logbook.choosePool(select.value));
    this.prepend(h('label', { for: 'keep-pool' }, 'Pool '), select, ' ');
  }

  async #keep(withPicture: boolean): Promise<void> {
    const temperatureC = typedCelsius(this.#temperature.value);
    if (Number.isNaN(temperatureC)) {
      this.#say('The water’s temperature can’t be right, so nothing was kept yet. Correct it, or leave it blank.');
      this.#temperature.focus();
      return;
    }
    this.#button.disabled = true;
    const logbook = await openLogbook();
    const jpeg = withPicture && !this.#kept ? await this.#data.picture() : null;
    const pool = await logbook.pool();
    const beside = { temperatureC, note: cleanText(this.#note.value, 2000).trim() };
    const poolId = this.#kept?.poolId ?? pool.id;
    const entry = toReadingEntry(this.#data.reading(), beside, poolId, jpeg ? newId() : null);
    try {
      this.#kept = await this.#write(logbook, entry, jpeg);
      this.#release?.();
      forgetUnkept();
      removeEventListener('beforeunload', askBeforeLeaving);
      this.#state.remove();
      this.#discard.remove();
      this.#button.hidden = true;
      const lasts =
        logbook.store.kind === 'memory'
          ? ` ${NOTICES.memory}`
          : wasEmptied()
            ? ` ${NOTICES.emptied} This reading is safe.`
            : '';
      this.#say(
        'Kept in the logbook of ',
        h('bdi', {}, pool.name),
        `.${lasts} `,
        h('a', { href: href('log/') }, 'Open it'),
      );
      this.dispatchEvent(new Event('kept', { bubbles: true }));
    } catch (error) {
      this.#failed(error, entry, jpeg);
    } finally {
      this.#button.disabled = false;
    }
  }

  async #write(logbook: Logbook, entry: ReadingEntry, jpeg: Uint8Array<ArrayBuffer> | null): Promise<ReadingEntry> {
    const before = this.#kept;
    if (!before) {
      await logbook.keepReading(entry, jpeg);
      return entry;
    }
    const { id, revision, pictureId } = before;
    const { change, entry: after } = changeEntry({ ...entry, id, revision, pictureId }, new Date().toISOString());
    await logbook.write(change);
    return after;
  }

  /** Nothing is lost: the reading can go to a file, or without its picture where there is no room. */
  #failed(error: unknown, entry: ReadingEntry, jpeg: Uint8Array<ArrayBuffer> | null): void {
    console.error(error);
    const { failure } = toStoreError(error);
    const file = h('button', { type: 'button' }, 'Save this reading to a file');
    file.addEventListener('click', () => {
      void Promise.all([openLogbook().then((logbook) => logbook.pool()), import('./export.ts')])
        .then(([pool, { exportReading }]) => exportReading(entry, jpeg, pool))
        .then(() => this.#release?.());
    });
    const smaller = h('button', { type: 'button' }, 'Keep it without the picture');
    smaller.addEventListener('click', () => void this.#keep(false));
    this.#say(`${failureText(failure)} `, file, failure === 'full' && jpeg ? smaller : '');
  }

  #say(...content: (string | Node)[]): void {
    this.#said.replaceChildren(...content);
  }
}

function askBeforeLeaving(event: BeforeUnloadEvent): void {
  event.preventDefault();
}

customElements.define('keep-reading', KeepReading);

/** @returns the element, and what to call when a value of the sheet was corrected */
export function keepButton(data: KeepData): { readonly element: HTMLElement; readonly onCorrected: () => void } {
  const element = document.createElement('keep-reading') as KeepReading;
  element.classList.add('no-print');
  element.data = data;
  return { element, onCorrected: () => element.changed() };
}
