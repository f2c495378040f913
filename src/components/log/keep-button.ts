/** "Keep in the logbook" under a reading sheet. Until it is kept, the page is held: no new edition loads over it. */
import { changeEntry } from '../../browser/store/changes.ts';
import { toStoreError } from '../../browser/store/failure.ts';
import { newId } from '../../browser/store/ids.ts';
import { type Logbook, openLogbook } from '../../browser/store/logbook.ts';
import { holdPage } from '../../browser/unsaved.ts';
import type { ReadingEntry } from '../../core/log/schema.ts';
import { cleanText } from '../../core/log/text.ts';
import type { Pixels } from '../../vision/pixels.ts';
import { h } from '../dom.ts';
import { href } from '../href.ts';
import { exportReading } from './export.ts';
import { temperatureUnit, toCelsius } from './measures.ts';
import { pictureOf, type ReadingToKeep, toReadingEntry } from './reading-entry.ts';
import { failureText, NOTICES } from './wording.ts';

interface KeepData {
  /** As the sheet stands at this moment. */
  readonly reading: () => ReadingToKeep;
  readonly flat: Pixels | null;
}

class KeepReading extends HTMLElement {
  #data!: KeepData;
  #kept: ReadingEntry | null = null;
  #release: (() => void) | null = null;
  readonly #button = h('button', { type: 'button' }, 'Keep in the logbook');
  readonly #said = h('p', { role: 'status', class: 'hint' });
  readonly #temperature = h('input', { id: 'keep-water', inputmode: 'decimal', autocomplete: 'off' });
  readonly #note = h('textarea', { id: 'keep-note', rows: 2, maxlength: 2000 });

  set data(data: KeepData) {
    this.#data = data;
  }

  connectedCallback(): void {
    this.#release = holdPage();
    this.#button.addEventListener('click', () => void this.#keep(true));
    this.replaceChildren(this.#more(), this.#button, this.#said);
    void this.#offerPools();
  }

  disconnectedCallback(): void {
    this.#release?.();
  }

  /** Something was corrected after it was kept. */
  changed(): void {
    if (!this.#kept) return;
    this.#button.hidden = false;
    this.#button.textContent = 'Keep the correction';
    this.#said.textContent = '';
  }

  /** What the photo can't know. */
  #more(): HTMLElement {
    const water = h('label', { for: 'keep-water' }, `Water temperature, ${temperatureUnit()} `);
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

  /** Null where nothing was typed, NaN where it can't be a pool's temperature. */
  #waterTemperatureC(): number | null {
    const text = this.#temperature.value.trim().replace(',', '.');
    if (text === '') return null;
    const celsius = toCelsius(Number(text));
    return celsius >= -5 && celsius <= 60 ? celsius : NaN;
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
    const waterTemperatureC = this.#waterTemperatureC();
    if (Number.isNaN(waterTemperatureC)) {
      this.#say('The water’s temperature can’t be right, so nothing was kept yet. Correct it, or leave it blank.');
      this.#temperature.focus();
      return;
    }
    this.#button.disabled = true;
    const logbook = await openLogbook();
    const jpeg = withPicture && this.#data.flat && !this.#kept ? await pictureOf(this.#data.flat) : null;
    const pool = await logbook.pool();
    const entry = {
      ...toReadingEntry(this.#data.reading(), this.#kept?.poolId ?? pool.id, jpeg ? newId() : null),
      waterTemperatureC,
      note: cleanText(this.#note.value, 2000).trim(),
    };
    try {
      this.#kept = await this.#write(logbook, entry, jpeg);
      this.#release?.();
      this.#button.hidden = true;
      const lasts = logbook.store.kind === 'memory' ? ` ${NOTICES.memory}` : '';
      this.#say(
        'Kept in the logbook of ',
        h('bdi', {}, pool.name),
        `.${lasts} `,
        h('a', { href: href('log/') }, 'Open it'),
      );
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
      void openLogbook()
        .then((logbook) => logbook.pool())
        .then((pool) => exportReading(entry, jpeg, pool))
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

customElements.define('keep-reading', KeepReading);

/** @returns the element, and what to call when a value of the sheet was corrected */
export function keepButton(data: KeepData): { readonly element: HTMLElement; readonly onCorrected: () => void } {
  const element = document.createElement('keep-reading') as KeepReading;
  element.classList.add('no-print');
  element.data = data;
  return { element, onCorrected: () => element.changed() };
}
