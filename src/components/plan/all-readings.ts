/** In the plan's form: the test at hand beside what all readings together say, and which of the two the plan starts from. */
import '../../browser/zod-setup.ts';
import { newId, zoneMinutesAt } from '../../browser/store/ids.ts';
import { onLogbookNews, openLogbook } from '../../browser/store/logbook.ts';
import { completed, type Estimate, type Given, type Measurement } from '../../core/measurement/measurement.ts';
import { QUANTITY_IDS, type QuantityId } from '../../core/measurement/quantities.ts';
import { type Entry, NOTHING_SAID, typedFields, type Pool, type ReadingEntry } from '../../core/log/schema.ts';
import { daysBefore, ESTIMATE_DAYS } from '../../core/log/time.ts';
import { testsDue } from '../../core/log/next-test.ts';
import { keptSpans } from '../../browser/spans.ts';
import { settings } from '../../browser/settings.ts';
import { USUAL_SPANS } from '../../core/reading/usual-spans.ts';
import { waterAhead } from '../../core/track/estimate.ts';
import { planStart, type StartRow } from '../../core/track/plan-start.ts';
import { ALL_READINGS, estimateTexts, oddityText, whyUsed } from '../../words/water-now.ts';
import { h } from '../dom.ts';
import { quantityWithUnit } from '../keep/measures.ts';

type Readings = Readonly<Partial<Record<string, Given & Partial<Measurement>>>>;

export class AllReadings {
  readonly #place: HTMLElement;
  readonly #onChange: () => void;
  readonly #box = h('input', { type: 'checkbox' });
  #log: { pool: Pool; entries: Entry[] } | null = null;
  #seen = '';
  #rows: readonly StartRow[] = [];
  #testHours: Partial<Record<QuantityId, number>> = {};

  /** @param onChange the plan starts from something else now */
  constructor(place: HTMLElement, onChange: () => void) {
    this.#place = place;
    this.#onChange = onChange;
    this.#box.addEventListener('input', (event) => {
      // It is no value of the form.
      event.stopPropagation();
      onChange();
    });
    onLogbookNews((news) => {
      if (news !== 'changed') return;
      this.#log = null;
      this.#seen = '';
    });
  }

  /** Looks anew where the readings aren't those of last time. @param time of the reading they came from; null for now */
  async look(readings: Readings, time: string | null): Promise<void> {
    const key = JSON.stringify([readings, time]);
    if (key === this.#seen) return;
    this.#seen = key;
    const log = (this.#log ??= await this.#read());
    if (key !== this.#seen) return;
    const entry = asEntry(readings, log.pool, time ?? new Date().toISOString());
    // What was kept already is the reading at hand.
    const before = log.entries.filter((one) => one.time !== entry.time);
    const isKnown = before.some(({ kind }) => kind === 'reading');
    const { rows, oddities } = isKnown ? planStart(before, log.pool, entry) : { rows: [], oddities: [] };
    const isOffered = rows.some(({ estimate }) => estimate !== null);
    this.#rows = isOffered ? rows : [];
    this.#place.hidden = !isOffered && oddities.length === 0;
    this.#place.replaceChildren(
      ...oddities.map((oddity) => h('p', { class: 'wrong' }, oddityText(oddity))),
      ...(isOffered ? [h('label', {}, this.#box, ` ${ALL_READINGS.start}`), table(this.#rows)] : []),
    );
    const hoursBefore = JSON.stringify(this.#testHours);
    this.#testHours = isKnown ? testHoursOf([...before, entry], log.pool, entry.time) : {};
    if (this.#box.checked || JSON.stringify(this.#testHours) !== hoursBefore) this.#onChange();
  }

  /** The form with the readings that the plan starts from, and with when each may be due again. */
  applied<F extends { readonly readings: Readings }>(form: F): F {
    const testHours = this.#testHours;
    if (!this.#box.checked) return { ...form, testHours };
    const used = this.#rows.filter(({ uses }) => uses === 'estimate');
    const time = new Date().toISOString();
    const estimates = used.map(({ quantity, estimate }) => [quantity, { ...estimate, time }]);
    return { ...form, testHours, readings: { ...form.readings, ...Object.fromEntries(estimates) } };
  }

  async #read(): Promise<{ pool: Pool; entries: Entry[] }> {
    const logbook = await openLogbook();
    const pool = await logbook.pool();
    const from = daysBefore(new Date().toISOString(), ESTIMATE_DAYS);
    return { pool, entries: await logbook.store.entriesBetween(pool.id, from, '\uffff') };
  }
}

function table(rows: readonly StartRow[]): HTMLElement {
  const head = [ALL_READINGS.quantity, ALL_READINGS.reading, ALL_READINGS.estimate];
  return h(
    'div',
    { class: 'all-readings-table', tabindex: 0, role: 'region', 'aria-label': ALL_READINGS.table },
    h(
      'table',
      {},
      h('thead', {}, h('tr', {}, ...head.map((name) => h('th', { scope: 'col' }, name)))),
      h(
        'tbody',
        {},
        ...rows.map(({ quantity, reading, estimate, uses, why }) =>
          h(
            'tr',
            {},
            h('th', { scope: 'row' }, quantityWithUnit(quantity), ' ', h('span', { class: 'hint' }, whyUsed(why))),
            cell(quantity, reading, uses === 'reading'),
            cell(quantity, estimate, uses === 'estimate'),
          ),
        ),
      ),
    ),
  );
}

function cell(quantity: QuantityId, estimate: Estimate | null, isUsed: boolean): HTMLElement {
  if (!estimate) return h('td', {}, '–');
  const [value, interval] = estimateTexts(quantity, estimate, settings.units());
  return h('td', { class: isUsed ? 'used' : null }, value, ' ', h('span', { class: 'span' }, interval));
}

/** When the estimate goes before the rule, in hours from the reading on. */
function testHoursOf(entries: readonly Entry[], pool: Pool, time: string): Partial<Record<QuantityId, number>> {
  const spans = keptSpans() ?? USUAL_SPANS;
  const due = testsDue(entries, (quantity) => spans[quantity] ?? null, waterAhead(entries, pool, time));
  const hours = due
    .filter(({ reason, time: at }) => reason === 'drift' && at > time)
    .map(({ quantity, time: at }) => [quantity, Math.round((Date.parse(at) - Date.parse(time)) / 3_600_000)] as const);
  return Object.fromEntries(hours);
}

/** The form's readings as they would stand in the logbook. */
function asEntry(readings: Readings, pool: Pool, time: string): ReadingEntry {
  const given = Object.entries(readings).filter(
    (pair): pair is [QuantityId, NonNullable<Readings[string]>] =>
      QUANTITY_IDS.some((id) => id === pair[0]) && Number.isFinite(pair[1]?.value),
  );
  const scale = given.map(([, one]) => one.scale).find((one) => one) ?? null;
  return {
    ...typedFields(given.map(([quantity, one]) => ({ ...completed(quantity, one), ...NOTHING_SAID }))),
    id: newId(),
    poolId: pool.id,
    revision: 1,
    edited: time,
    time,
    zoneMinutes: zoneMinutesAt(new Date(time)),
    note: '',
    scale,
  };
}
