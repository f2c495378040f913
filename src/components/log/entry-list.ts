/** The entries, newest first, a month at a time: the next month is fetched when the reader comes near its place. */
import type { LogStore } from '../../browser/store/store.ts';
import { type Entry, newestFirst } from '../../core/log/schema.ts';
import { h } from '../dom.ts';
import { entryView, type EntryActions } from './entry-view.ts';
import { temperatureUnit } from './measures.ts';
import { monthText } from '../../words/dates.ts';

/** Rows added to the page at once. */
const PORTION = 40;

interface Month {
  readonly from: string;
  readonly to: string;
  readonly title: string;
}

/** By all that a row shows. */
type Rows = Map<string, { readonly entry: Entry; readonly row: HTMLElement }>;

export class EntryList {
  readonly #root: HTMLElement;
  readonly #actions: EntryActions;
  readonly #observer: IntersectionObserver;
  #store: LogStore | null = null;
  #poolId = '';
  #months: Month[] = [];
  #waiting: Entry[] = [];
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
    this.#busy = this.#busy.then(() => this.#begin(store, poolId, upToMonth, alongside));
    return this.#busy;
  }

  /** The old rows stay until the new ones are there: else the page would fold up under the reader's finger. */
  async #begin(store: LogStore, poolId: string, upToMonth: string, alongside: () => void): Promise<void> {
    this.#store = store;
    this.#poolId = poolId;
    this.#waiting = [];
    const span = await store.span(poolId);
    this.#months = span ? monthsBack(span.last, span.first) : [];
    if (upToMonth !== '') this.#months = this.#months.filter(({ from }) => from <= `${upToMonth}-15`);
    const of = `${poolId} ${upToMonth}`;
    // Who has scrolled far down, and changes something there, stays there.
    const rows = this.#shown.of === of ? Math.max(PORTION, this.#shown.rows) : PORTION;
    this.#shown = { of, rows: 0 };
    this.#former = this.#rows;
    this.#rows = new Map();
    const fresh = h('div');
    await this.#fill(fresh, rows);
    this.#root.replaceChildren(...fresh.children);
    alongside();
    this.#watch();
  }

  /** The entries whose rows are on the page. */
  shown(): Entry[] {
    return [...this.#rows.values()].map(({ entry }) => entry);
  }

  more(): Promise<void> {
    this.#busy = this.#busy.then(() => this.#fill(this.#root, PORTION)).then(() => this.#watch());
    return this.#busy;
  }

  /** Adds the next rows. @param place sections of months */
  async #fill(place: HTMLElement, count: number): Promise<void> {
    let room = count;
    while (room > 0) {
      if (this.#waiting.length === 0 && !(await this.#nextMonth(place))) break;
      const rows = this.#waiting.splice(0, room);
      place.lastElementChild!.lastElementChild!.append(...rows.map((entry) => this.#row(entry)));
      room -= rows.length;
      this.#shown.rows += rows.length;
    }
  }

  /** An entry that is as it was keeps its row: the browser knows its height, and an opened picture stays open. */
  #row(entry: Entry): HTMLElement {
    const key = JSON.stringify([entry, temperatureUnit()]);
    const { row } = this.#former.get(key) ?? { row: entryView(entry, this.#actions) };
    this.#rows.set(key, { entry, row });
    return row;
  }

  #watch(): void {
    this.#observer.disconnect();
    const last = this.#root.lastElementChild?.lastElementChild?.lastElementChild;
    if (last && (this.#waiting.length > 0 || this.#months.length > 0)) this.#observer.observe(last);
  }

  /** @returns false when the log is at its end */
  async #nextMonth(place: HTMLElement): Promise<boolean> {
    for (;;) {
      const month = this.#months.shift();
      if (!month || !this.#store) return false;
      const entries = await this.#store.entriesBetween(this.#poolId, month.from, month.to);
      if (entries.length === 0) continue;
      this.#waiting = entries.sort(newestFirst);
      place.append(h('section', {}, h('h3', {}, month.title), h('ol', { class: 'log-entries' })));
      return true;
    }
  }
}

/** Calendar months of the device's zone from the one that holds `last` back to the one that holds `first`. */
export function monthsBack(last: string, first: string): Month[] {
  const months: Month[] = [];
  const start = new Date(last);
  for (let back = 0; ; back++) {
    const from = new Date(start.getFullYear(), start.getMonth() - back, 1);
    const next = new Date(start.getFullYear(), start.getMonth() - back + 1, 1);
    const to = new Date(next.getTime() - 1).toISOString();
    months.push({ from: from.toISOString(), to, title: monthText(from) });
    if (from.toISOString() <= first) return months;
  }
}
