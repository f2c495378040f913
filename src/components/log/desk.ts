/** The element behind the logbook page: opens the logbook, shows it, and does what the visitor asks. */
import '../../browser/zod-setup.ts';
import { addPool, changeEntry, changePool, emptyBin, moveToBin, takeFromBin } from '../../browser/store/changes.ts';
import { StoreError, toStoreError } from '../../browser/store/failure.ts';
import { newId } from '../../browser/store/ids.ts';
import { type Logbook, onLogbookNews, openLogbook } from '../../browser/store/logbook.ts';
import type { BinRecord, Change } from '../../browser/store/tables.ts';
import { whenIdle } from '../../browser/when-idle.ts';
import { type Entry, newestFirst, type Pool } from '../../core/log/schema.ts';
import { cleanText } from '../../core/text.ts';
import { h, need } from '../dom.ts';
import { keptSpans } from '../../browser/spans.ts';
import type { Spans } from '../../core/reading/spans.ts';
import { EntryList } from './entry-list.ts';
import { Standing } from './standing.ts';
import { Transfer } from './transfer.ts';
import { clockText, draftText, failureText, lostText, NOTICES, setAsideText } from '../../words/log.ts';
import { freshen, freshenTime, showUnits } from './fresh-form.ts';

/** Fetched when a file is wanted, or a form is opened. */
const exporting = () => import('../keep/export.ts');
const writing = () => import('./write-forms.ts');

class LogDesk extends HTMLElement {
  #logbook!: Logbook;
  #pool!: Pool;
  #standing!: Standing;
  #list!: EntryList;
  #transfer!: Transfer;
  #drawing: Promise<void> = Promise.resolve();
  #isWaiting = false;
  /** The browser has thrown the logbook away: what is on the screen stays. */
  #isThrownAway = false;

  connectedCallback(): void {
    onLogbookNews((news) => {
      if (news === 'changed') void this.#refresh();
      else if (news === 'emptied') void this.#showThrownAway();
      else this.#notice(NOTICES[news]);
    });
    void this.#open();
  }

  async #open(): Promise<void> {
    this.#logbook = await openLogbook();
    const { store, lost, clockBehind, trouble } = this.#logbook;
    if (lost) this.#notice(lostText(lost.entries, lost.last));
    if (clockBehind) this.#notice(clockText(clockBehind));
    if (store.kind === 'memory') this.#notice(NOTICES[trouble ?? 'memory']);
    if (trouble === 'incomplete') need(this, '.notices').append(...(await import('./afresh.ts')).afreshButtons());
    if (store.kind === 'newer') return this.#showNewer();
    this.#standing = new Standing(this, this.#logbook);
    this.#list = new EntryList(need(this, '.all-entries'), {
      onDelete: (entry) => void this.#delete({ entries: [entry], pool: null }),
      onNote: (entry, note) => void this.#note(entry, note),
      onPicture: (id, place) => void import('./picture.ts').then(({ showPicture }) => showPicture(store, id, place)),
      onDraftLost: (note) => this.#notice(draftText(note)),
    });
    this.#transfer = new Transfer(need(this, '.transfer'), this.#logbook, () => this.#drawing);
    this.#listen();
    await this.#refresh();
    this.dataset['ready'] = '';
    this.#openAsked();
    whenIdle(() => void this.#tellSetAside().catch((error: unknown) => console.error(error)));
  }

  /** A link may ask for one of the forms. */
  #openAsked(): void {
    const asked = document.getElementById(location.hash.slice(1));
    if (!(asked instanceof HTMLDetailsElement)) return;
    asked.open = true;
    need<HTMLElement>(asked, 'select, input').focus();
  }

  /** One record that can't be read must not pass in silence, nor hide the others. */
  async #tellSetAside(): Promise<void> {
    const records = await this.#logbook.store.setAside();
    if (records.length === 0) return;
    const save = h('button', { type: 'button' }, 'Save it to a file');
    save.addEventListener('click', () => void exporting().then((out) => out.exportSetAside(records)));
    this.#notice(setAsideText(records.length));
    need(this, '.notices').append(h('p', {}, save));
  }

  #listen(): void {
    need<HTMLSelectElement>(this, '#pool').addEventListener('change', (event) => {
      this.#logbook.choosePool((event.target as HTMLSelectElement).value);
      void this.#refresh();
    });
    need(this, '[data-pool=edit]').addEventListener('click', () => void this.#editPool(this.#pool));
    need(this, '[data-pool=add]').addEventListener('click', () => void this.#editPool(null));
    need(this, '#trend-days').addEventListener('change', () => void this.#showTrend());
    const month = need<HTMLInputElement>(this, '#upto');
    month.addEventListener('change', () => void this.#list.show(this.#logbook.store, this.#pool.id, month.value));
    need(this, '[data-upto=newest]').addEventListener('click', () => {
      month.value = '';
      void this.#list.show(this.#logbook.store, this.#pool.id);
    });
    for (const form of this.querySelectorAll<HTMLFormElement>('form[data-kind]')) {
      freshen(form);
      form.parentElement?.addEventListener('toggle', () => {
        freshenTime(form);
        writing().catch(() => undefined);
      });
      form.addEventListener('submit', (event) => {
        event.preventDefault();
        void this.#writeDown(form);
      });
    }
    let width = this.clientWidth;
    new ResizeObserver(() => {
      if (this.clientWidth === width) return;
      width = this.clientWidth;
      void this.#showTrend();
    }).observe(this);
  }

  /** One drawing after the other, so that an older one never ends up on top. */
  #refresh(): Promise<void> {
    // What waits for its turn will show this change too.
    if (this.#isThrownAway || this.#isWaiting) return this.#drawing;
    this.#isWaiting = true;
    const draw = () => {
      this.#isWaiting = false;
      return this.#draw();
    };
    this.#drawing = this.#drawing.then(draw).catch((error: unknown) => console.error(error));
    return this.#drawing;
  }

  /** Everything is looked up first and then shown in one update, so that nothing moves while somebody taps. */
  async #draw(): Promise<void> {
    const { store } = this.#logbook;
    const spans = keptSpans() ?? (JSON.parse(need(this, 'script[data-spans]').textContent) as Spans);
    showUnits(this);
    const pools = await this.#logbook.pools();
    this.#pool = await this.#logbook.pool();
    const span = await store.span(this.#pool.id);
    const showStanding = await this.#standing.look(this.#pool, spans);
    const showTransfer = await this.#transfer.look();
    const bin = await store.all('bin');
    const binView = bin.length > 0 ? (await import('./bin-view.ts')).binView : () => [];
    await this.#list.show(store, this.#pool.id, need<HTMLInputElement>(this, '#upto').value, () => {
      this.#showPools(pools);
      need<HTMLElement>(this, '.empty-log').hidden = span !== null;
      need<HTMLElement>(this, '.opened').hidden = span === null;
      // What was just said stays to be read, its undo included.
      need<HTMLElement>(this, '.entries').hidden = span === null && need(this, '.list-said').childNodes.length === 0;
      showStanding?.();
      showTransfer();
      need(this, '.bin').replaceChildren(
        ...binView(bin, { onBack: (record) => void this.#takeBack(record), onEmpty: () => void this.#emptyBin() }),
      );
    });
  }

  #showPools(pools: readonly Pool[]): void {
    const choices = (pools.length > 0 ? pools : [this.#pool]).map(({ id, name }) =>
      h('option', { value: id, selected: id === this.#pool.id }, name),
    );
    need(this, '#pool').replaceChildren(...choices);
  }

  async #showTrend(): Promise<void> {
    if (!this.#isThrownAway) await this.#standing.showTrend();
  }

  async #writeDown(form: HTMLFormElement): Promise<void> {
    const said = need(form, '[role=status]');
    try {
      const written = (await writing()).readForm(form, this.#pool.id);
      said.textContent = written.ok ? '' : written.message;
      if (!written.ok) return;
      await this.#logbook.keepEntry(written.entry);
      await this.#drawing;
      freshen(form);
      said.textContent = 'It is written down.';
    } catch (error) {
      said.textContent = failureText(toStoreError(error).failure);
    }
  }

  async #note(entry: Entry, note: string): Promise<void> {
    const { change } = changeEntry({ ...entry, note: cleanText(note, 2000).trim() }, new Date().toISOString());
    if (await this.#do(change)) this.querySelector<HTMLElement>(`[data-entry="${entry.id}"]`)?.focus();
  }

  async #delete({ entries, pool }: { entries: readonly Entry[]; pool: Pool | null }): Promise<void> {
    const record: BinRecord = { id: newId(), deleted: new Date().toISOString(), entries, pool, scale: null };
    if (!(await this.#do(moveToBin(record)))) return;
    const undo = h('button', { type: 'button' }, 'Undo');
    undo.addEventListener('click', () => void this.#takeBack(record));
    need<HTMLElement>(this, '.entries').hidden = false;
    this.#say(pool ? 'The pool and its entries are deleted. ' : 'The entry is deleted. ', undo);
    undo.focus();
  }

  async #takeBack(record: BinRecord): Promise<void> {
    if (!(await this.#do(takeFromBin(record)))) return;
    this.#say('It is back.');
    const first = record.entries[0];
    if (first) this.querySelector<HTMLElement>(`[data-entry="${first.id}"]`)?.focus();
  }

  async #emptyBin(): Promise<void> {
    const { store } = this.#logbook;
    // The pictures first: one that another tab adds meanwhile is then not among them.
    const pictures = await store.ids('pictures');
    const done = await this.#do(emptyBin(await store.all('entries'), pictures));
    if (done) this.#say('The bin is empty.');
  }

  async #editPool(pool: Pool | null): Promise<void> {
    const place = need(this, '.pool-form');
    const { poolForm } = await import('./pool-form.ts');
    const close = () => place.replaceChildren();
    const form = poolForm(pool, {
      onLeave: close,
      onKeep: (kept) => void this.#keepPool(pool, kept).then(close),
      ...(pool && { onDelete: () => void this.#deletePool(pool).then(close) }),
    });
    place.replaceChildren(form);
    need<HTMLElement>(form, 'input').focus();
  }

  async #keepPool(before: Pool | null, pool: Pool): Promise<void> {
    const known = before !== null && (await this.#logbook.store.get('pools', before.id)) !== undefined;
    const change = known ? changePool(pool, new Date().toISOString()).change : addPool(pool);
    if (!before) this.#logbook.choosePool(pool.id);
    await this.#do(change);
  }

  async #deletePool(pool: Pool): Promise<void> {
    const entries = await this.#logbook.store.entriesBetween(pool.id, '', '\uffff');
    await this.#delete({ entries: entries.sort(newestFirst), pool });
  }

  /** @returns whether it was written; a failure is told where the list is */
  async #do(change: Change): Promise<boolean> {
    try {
      await this.#logbook.write(change);
      await this.#drawing;
      return true;
    } catch (error) {
      const { failure } = toStoreError(error);
      this.#say(this.#isThrownAway ? NOTICES.emptied : failureText(failure));
      if (error instanceof StoreError && failure === 'conflict') await this.#refresh();
      return false;
    }
  }

  #say(...content: (string | Node)[]): void {
    need(this, '.list-said').replaceChildren(...content);
  }

  #notice(text: string): void {
    const notices = need(this, '.notices');
    if ([...notices.children].some((notice) => notice.textContent === text)) return;
    notices.append(h('p', { class: 'wrong' }, text));
  }

  async #showThrownAway(): Promise<void> {
    if (this.#isThrownAway || !this.#list) return;
    const { drawn } = this.#standing;
    const entries = [...drawn.entries, ...this.#list.shown()];
    const held = { ...drawn, entries: [...new Map(entries.map((entry) => [entry.id, entry])).values()] };
    if (entries.length === 0) return;
    this.#isThrownAway = true;
    const [{ putBack, thrownAwayView }, { exportHeld }] = await Promise.all([import('./thrown-away.ts'), exporting()]);
    const onPutBack = async (): Promise<void> => {
      await putBack(this.#logbook, held);
      this.#isThrownAway = false;
      view.remove();
      await this.#refresh();
    };
    const view = thrownAwayView(held, {
      onPutBack: () => void onPutBack().catch((error) => this.#notice(failureText(toStoreError(error).failure))),
      onSave: () => void exportHeld(held),
    });
    need(this, '.notices').append(view);
  }

  #showNewer(): void {
    this.#notice(NOTICES.newer);
    for (const part of this.querySelectorAll<HTMLElement>('.needs-script')) part.hidden = true;
    const save = h('button', { type: 'button' }, 'Save a copy as it is');
    save.addEventListener('click', () => void exporting().then((out) => out.exportAsItIs()));
    need(this, '.notices').append(save);
    this.dataset['ready'] = '';
  }
}

customElements.define('log-desk', LogDesk);
