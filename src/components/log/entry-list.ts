/** The entries, newest first, under the months they lie in: the next are fetched when the reader comes near their place. */
import { settings } from '../../browser/settings.ts';
import { type EntryPlace, EVER, type LogStore } from '../../browser/store/store.ts';
import type { Entry } from '../../core/log/schema.ts';
import { h } from '../dom.ts';
import type { EntryActions } from './entry-view.ts';
import { monthText } from '../../words/dates.ts';
import { temperatureUnit } from '../../words/units.ts';

/** Rows added to the page at once. */
const PORTION = 40;

/** How an entry is shown: fetched with the first there is. */
type EntryView = typeof import('./entry-view.ts');

/** By all that a row shows. */
type Rows = Map<string, { readonly entry: Entry; readonly row: HTMLElement }>;

export class EntryList {
  readonly #root: HTMLElement;
  readonly #actions: EntryActions;
  readonly #observer: IntersectionObserver;
  #store: LogStore | null = null;
  #view: EntryView | null = null;
  #poolId = '';
  /** Where the next entries begin; null at the end of the log. */
  #next: EntryPlace | null = null;
  #shown = { of: '', rows: 0 };
  /** Rows on the page, and those before them until they are replaced. */
  #rows: Rows = new Map();
  #former: Rows = new Map();
  #busy: Promise<void> = Promise.resolve();

  /** @param root emptied and filled here */
  constructor(root: HTMLElement, actions: EntryActions) {
    this.#root = root;
    this.#actions = actions;
    this.#observer = new IntersectionObserver(
      (sightings) => {
        if (sightings.some(({ isIntersecting }) => isIntersecting)) void this.more();
      },
      { rootMargin: '1200px' },
    );
  }

  /**
   * Begins again at the newest entry, or at the end of a month: "2026-07".
   * @param alongside what else is to change on the page in the same moment
   */
  show(store: LogStore, poolId: string, upToMonth = '', alongside: () => void = () => undefined): Promise<void> {
    this.#busy = this.#busy.catch(() => undefined).then(() => this.#begin(store, poolId, upToMonth, alongside));
    return this.#busy;
  }

  /** The old rows stay until the new ones are there: else the page would shrink and the reader would lose the place. */
  async #begin(store: LogStore, poolId: string, upToMonth: string, alongside: () => void): Promise<void> {
    this.#store = store;
    this.#poolId = poolId;
    this.#next = { time: upToMonth === '' ? EVER : endOf(upToMonth) };
    const of = `${poolId} ${upToMonth}`;
    // Who has scrolled far down, and changes something there, stays there.
    const rows = this.#shown.of === of ? Math.max(PORTION, this.#shown.rows) : PORTION;
    this.#shown = { of, rows: 0 };
    this.#former = this.#rows;
    this.#rows = new Map();
    const fresh = h('div');
    await this.#fill(fresh, rows);
    await this.#keepDrafts(fresh);
    const focused = document.activeElement;
    this.#root.replaceChildren(...fresh.children);
    if (focused instanceof HTMLElement && this.#root.contains(focused)) focused.focus({ preventScroll: true });
    alongside();
    this.#watch();
  }

  /** What is being written while its entry changes elsewhere goes on in the new row, or is told where that is gone. */
  async #keepDrafts(fresh: HTMLElement): Promise<void> {
    if (!this.#view) return;
    const { carryDraft, draftIn } = this.#view;
    for (const { row } of this.#former.values()) {
      const draft = draftIn(row);
      if (draft === null || fresh.contains(row)) continue;
      const id = row.dataset['entry']!;
      const next = fresh.querySelector<HTMLElement>(`[data-entry="${id}"]`);
      if (next) carryDraft(row, next);
      else if (!(await this.#store?.get('entries', id))) this.#actions.onDraftLost(draft);
    }
  }

  /** The entries whose rows are on the page. */
  shown(): Entry[] {
    return [...this.#rows.values()].map(({ entry }) => entry);
  }

  more(): Promise<void> {
    this.#busy = this.#busy
      .catch(() => undefined)
      .then(() => this.#fill(this.#root, PORTION))
      .then(() => this.#watch());
    return this.#busy;
  }

  /** Adds the next rows. @param place sections of months */
  async #fill(place: HTMLElement, count: number): Promise<void> {
    if (!this.#next || !this.#store) return;
    const entries = await this.#store.entriesBefore(this.#poolId, this.#next, count);
    if (entries.length > 0) {
      const { entryView } = (this.#view ??= await import('./entry-view.ts'));
      for (const entry of entries) this.#listFor(entry, place).append(this.#row(entry, entryView));
    }
    this.#shown.rows += entries.length;
    const last = entries.at(-1);
    this.#next = last && entries.length === count ? { time: last.time, id: last.id } : null;
  }

  /** The list of the entry's month by the device's zone, begun where it isn't there. */
  #listFor(entry: Entry, place: HTMLElement): HTMLElement {
    const title = monthText(new Date(entry.time));
    const last = place.lastElementChild;
    if (last?.firstElementChild?.textContent === title) return last.lastElementChild as HTMLElement;
    const list = h('ol', { class: 'log-entries' });
    place.append(h('section', {}, h('h3', {}, title), list));
    return list;
  }

  /** An entry that is as it was keeps its row: the browser knows its height, and an opened picture stays open. */
  #row(entry: Entry, entryView: EntryView['entryView']): HTMLElement {
    const key = JSON.stringify([entry, temperatureUnit(settings.units())]);
    const { row } = this.#former.get(key) ?? { row: entryView(entry, this.#actions) };
    this.#rows.set(key, { entry, row });
    return row;
  }

  #watch(): void {
    this.#observer.disconnect();
    const last = this.#root.lastElementChild?.lastElementChild?.lastElementChild;
    if (last && this.#next) this.#observer.observe(last);
  }
}

/** The last moment of a month of the device's zone: "2026-07". */
export function endOf(month: string): string {
  const [year, number] = month.split('-').map(Number) as [number, number];
  const next = new Date(year, number, 1);
  // A year below 100 would be taken for one of the last century.
  next.setFullYear(number === 12 ? year + 1 : year);
  return Number.isNaN(next.getTime()) ? EVER : new Date(next.getTime() - 1).toISOString();
}
