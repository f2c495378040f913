/** Several photos at once: a row of results, looked at one by one, kept one by one or all of them. */
import { isAbort } from '../../browser/abort.ts';
import { toStoreError } from '../../browser/store/failure.ts';
import { forgetUnkept, holdUnkept, unkept } from '../../browser/unkept.ts';
import { holdPage } from '../../browser/unsaved.ts';
import { readTogether } from '../../core/reading/several.ts';
import { failureText } from '../../words/log.ts';
import { READER_STOPPED, ROWS } from '../../words/many.ts';
import { PRACTICE_NOTE } from '../../words/methods.ts';
import { clear, freeCanvases, h } from '../dom.ts';
import { keepReadingOf } from '../keep/keep-unkept.ts';
import type { IncomingPhoto } from './incoming-photo.ts';
import { PhotoRow } from './photo-row.ts';
import { readForRow, type ReadingUses } from './read-for-row.ts';
import look from './photo-rows.css?url';
import type { SheetData } from './sheet.ts';
import { styled } from './sheet-parts.ts';
import { asShown } from './waiting.ts';
import { whichCard } from './which-card.ts';

/** In force once it has come. */
export const rowsLook = () => (looking ??= styled(look));
let looking: Promise<void> | null = null;

/** What a row's sheet knows of its own. */
export type SheetOfRow = Awaited<ReturnType<typeof asShown>> & Required<Pick<SheetData, 'onHold' | 'onDiscard'>>;

interface RowsUses extends ReadingUses {
  readonly sheet: (data: SheetOfRow) => HTMLElement;
}

export class PhotoRows {
  readonly element: HTMLElement;
  readonly #uses: RowsUses;
  readonly #rows: PhotoRow[] = [];
  #running: AbortController | null = null;
  #opened: PhotoRow | null = null;
  #release: (() => void) | null = null;
  readonly #title = h('h2', { id: 'rows-title', tabindex: -1 });
  readonly #said = h('p', { role: 'status', class: 'hint' });
  readonly #list = h('ol', { class: 'photo-rows' });
  readonly #practice = h('p', { class: 'wrong invented', hidden: true }, PRACTICE_NOTE);
  readonly #joinHint = h('p', { class: 'hint no-print' }, ROWS.joinHint);
  readonly #place = h('div', { class: 'opened-row' });
  readonly #keepAll = this.#button('', () => void this.#keep(this.#unkept), 'primary');
  readonly #join = this.#button(ROWS.join, () => this.#readAsOne());
  readonly #stop = this.#button(ROWS.stop, () => this.stop());
  readonly #discard = this.#button(ROWS.discard, () => this.#discardAll(), 'plain');

  constructor(uses: RowsUses) {
    this.#uses = uses;
    const buttons = h(
      'p',
      { class: 'buttons no-print' },
      this.#keepAll,
      ' ',
      this.#join,
      ' ',
      this.#stop,
      ' ',
      this.#discard,
    );
    this.element = h(
      'section',
      { class: 'several-photos', 'aria-labelledby': 'rows-title' },
      this.#title,
      this.#said,
      buttons,
      this.#joinHint,
      this.#practice,
      this.#list,
      this.#place,
    );
  }

  /** Something in it would be lost with the page, or isn't read yet. */
  get isHeld(): boolean {
    return this.#rows.some(({ state }) => state === 'waiting' || state === 'read');
  }

  /** Photos are read one after the other, those that were added first. */
  add(photos: readonly IncomingPhoto[]): void {
    for (const photo of photos) {
      const row = new PhotoRow(photo, {
        open: () => void this.#open(row),
        keep: () => void this.#keep([row]),
        again: () => this.#readAgain(row, row.which),
      });
      this.#rows.push(row);
      this.#list.append(row.element);
    }
    this.#look();
    void this.#run();
  }

  /** What wasn't read yet stays in its row. */
  stop(): void {
    this.#running?.abort();
    this.#running = null;
    for (const row of this.#rows) if (row.state === 'waiting') row.show({ state: 'left' });
    this.#look();
  }

  async #run(): Promise<void> {
    if (this.#running) return;
    const running = (this.#running = new AbortController());
    for (let row = this.#next; row && !running.signal.aborted; row = this.#next) {
      await this.#read(row, running.signal);
      this.#look();
    }
    if (this.#running === running) this.#running = null;
    this.#look();
  }

  get #next(): PhotoRow | undefined {
    return this.#rows.find(({ state }) => state === 'waiting');
  }

  async #read(row: PhotoRow, signal: AbortSignal): Promise<void> {
    this.#said.textContent = ROWS.reading(this.#rows.indexOf(row) + 1, this.#rows.length);
    try {
      const shown = await readForRow(row.photo, row.which, this.#uses, signal);
      if (!signal.aborted) row.show(shown);
    } catch (error) {
      if (signal.aborted) return;
      // The page is being left.
      if (isAbort(error)) return this.stop();
      console.error(error);
      row.show({ state: 'refused', reasons: [READER_STOPPED] });
    }
  }

  #readAgain(row: PhotoRow, which: number | null): void {
    this.#close();
    row.again(which);
    void this.#run();
  }

  /** The row's sheet below all rows; of several cards, the question which is meant. */
  async #open(row: PhotoRow): Promise<void> {
    this.#close();
    this.#opened = row;
    const { held, cards } = row;
    if (held) {
      const sheet = this.#uses.sheet({
        ...(await asShown(held)),
        onHold: (changed) => {
          row.show({ state: 'read', held: changed });
          return holdUnkept(changed);
        },
        onDiscard: () => this.#discardRow(row),
      });
      sheet.addEventListener('kept', () => {
        row.show({ state: 'kept' });
        this.#look();
      });
      this.#place.append(sheet);
    } else if (cards) {
      const { photoCanvas } = await import('./photo-canvas.ts');
      const choose = (chosen: number) => this.#readAgain(row, chosen);
      this.#place.append(whichCard(await photoCanvas(row.photo.blob), cards.size, cards.outlines, choose));
    }
    this.#place.querySelector<HTMLElement>('h2')?.focus({ preventScroll: true });
    this.#place.scrollIntoView({ block: 'start' });
  }

  #close(): void {
    this.#opened = null;
    clear(this.#place);
  }

  get #unkept(): PhotoRow[] {
    return this.#rows.filter(({ state }) => state === 'read');
  }

  async #keep(rows: readonly PhotoRow[]): Promise<void> {
    this.#keepAll.disabled = true;
    let kept = 0;
    try {
      for (const row of rows) {
        if (row.state !== 'read' || !row.held) continue;
        await keepReadingOf(row.held);
        if (unkept()?.time === row.held.time) forgetUnkept();
        if (this.#opened === row) this.#close();
        row.show({ state: 'kept' });
        kept += 1;
      }
      this.#look(ROWS.kept(kept));
    } catch (error) {
      console.error(error);
      this.#look(`${ROWS.kept(kept)} ${failureText(toStoreError(error).failure)}`);
    } finally {
      this.#keepAll.disabled = false;
    }
  }

  /** One reading of all photos that were read with one scale; their own rows rest in it. */
  #readAsOne(): void {
    this.#close();
    const rows = this.#unkept;
    const readings = rows.flatMap(({ held }) => held ?? []);
    const [first] = readings;
    if (!first) return;
    const held = {
      ...first,
      outcome: readTogether(
        readings.map(({ outcome }) => outcome),
        first.scale,
      ),
    };
    const row = new PhotoRow(rows[0]!.photo, {
      open: () => void this.#open(row),
      keep: () => void this.#keep([row]),
      again: () => undefined,
    });
    row.name = ROWS.joined(readings.length);
    row.parts = rows;
    for (const one of rows) one.show({ state: 'joined' });
    this.#rows.push(row);
    this.#list.append(row.element);
    row.show({ state: 'read', held });
    this.#look();
    void this.#open(row);
  }

  #discardRow(row: PhotoRow): void {
    this.#close();
    forgetUnkept();
    row.show({ state: 'left' });
    // What was one reading is several again.
    for (const part of row.parts) part.show({ state: 'read', held: part.held });
    if (row.parts.length > 0) this.#remove(row);
    this.#look();
    this.#title.focus();
  }

  #remove(row: PhotoRow): void {
    this.#rows.splice(this.#rows.indexOf(row), 1);
    freeCanvases(row.element);
    row.element.remove();
  }

  /** Each can be read again from its row. */
  #discardAll(): void {
    this.#close();
    this.stop();
    for (const row of this.#unkept) row.show({ state: 'left' });
    this.#look();
  }

  /** Title, buttons and what holds the page, as the rows are now. */
  #look(said?: string): void {
    const count = (state: string) => this.#rows.filter((row) => row.state === state).length;
    const unkeptRows = this.#unkept;
    this.#title.textContent = ROWS.title(this.#rows.filter(({ parts }) => parts.length === 0).length);
    if (said !== undefined) this.#said.textContent = said;
    else if (!this.#running) this.#said.textContent = ROWS.done(unkeptRows.length, count('refused'), count('left'));
    this.#keepAll.textContent = ROWS.keepAll(unkeptRows.length);
    this.#keepAll.hidden = this.#discard.hidden = unkeptRows.length === 0;
    const scales = new Set(unkeptRows.map(({ held }) => held?.scale.id));
    this.#join.hidden = this.#running !== null || unkeptRows.length < 2 || scales.size > 1;
    this.#joinHint.hidden = this.#join.hidden;
    this.#stop.hidden = this.#running === null;
    this.#practice.hidden = !this.#rows.some(({ held }) => held?.scale.origin === 'practice');
    if (this.isHeld && !this.#release) {
      this.#release = holdPage();
      addEventListener('beforeunload', askBeforeLeaving);
    } else if (!this.isHeld && this.#release) {
      this.#release();
      this.#release = null;
      removeEventListener('beforeunload', askBeforeLeaving);
    }
  }

  #button(name: string, onClick: () => void, look: string | null = null): HTMLButtonElement {
    const button = h('button', { type: 'button', class: look }, name);
    button.addEventListener('click', onClick);
    return button;
  }
}

function askBeforeLeaving(event: BeforeUnloadEvent): void {
  event.preventDefault();
}
