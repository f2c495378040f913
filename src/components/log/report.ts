/** The season report: everything of one pool between two days, for paper. */
import '../../browser/zod-setup.ts';
import { openLogbook } from '../../browser/store/logbook.ts';
import type { Entry, Pool } from '../../core/log/schema.ts';
import { EARLIEST, latestTime } from '../../core/log/time.ts';
import { h, need } from '../dom.ts';
import { keptSpans } from '../../browser/spans.ts';
import type { Spans } from '../../core/reading/spans.ts';
import { settings } from '../../browser/settings.ts';
import { volumeText } from '../../words/units.ts';
import { NOTICES } from '../../words/log.ts';
import { dateText } from '../../words/dates.ts';
import { countText } from '../../words/grammar.ts';

class LogReport extends HTMLElement {
  #pool!: Pool;
  #spans: Spans = {};

  connectedCallback(): void {
    this.#spans = keptSpans() ?? (JSON.parse(need(this, 'script[data-spans]').textContent) as Spans);
    need(this, '[data-print]').addEventListener('click', () => window.print());
    for (const field of this.querySelectorAll('input')) field.addEventListener('change', () => void this.#show());
    void this.#open();
  }

  async #open(): Promise<void> {
    const logbook = await openLogbook();
    this.#pool = await logbook.pool();
    const span = await logbook.store.span(this.#pool.id, EARLIEST, latestTime(new Date().toISOString()));
    if (span) {
      const last = new Date(span.last);
      need<HTMLInputElement>(this, '#report-from').value = `${last.getFullYear()}-01-01`;
      need<HTMLInputElement>(this, '#report-to').value = dayOf(last);
    }
    if (logbook.store.kind === 'newer') need(this, '.report').replaceChildren(h('p', {}, NOTICES.newer));
    else await this.#show();
    this.dataset['ready'] = '';
  }

  async #show(): Promise<void> {
    const { store } = await openLogbook();
    const from = dayStart(need<HTMLInputElement>(this, '#report-from').value, 0);
    const to = dayStart(need<HTMLInputElement>(this, '#report-to').value, 1);
    const place = need(this, '.report');
    if (!from || !to || from >= to) {
      place.replaceChildren(h('p', { class: 'lead' }, 'Nothing is written down in this time.'));
      return;
    }
    const entries = await store.entriesBetween(this.#pool.id, from, to);
    place.replaceChildren(...(await this.#report(entries, from, to)));
  }

  async #report(entries: readonly Entry[], from: string, to: string): Promise<HTMLElement[]> {
    const { name, volumeLitres } = this.#pool;
    const volume = volumeLitres === null ? '' : `, ${volumeText(volumeLitres, settings.units())}`;
    const last = new Date(Date.parse(to) - 1).toISOString();
    const count = (kind: Entry['kind']) => entries.filter((entry) => entry.kind === kind).length;
    const head = [
      h('h2', {}, h('bdi', {}, name), volume),
      h(
        'p',
        {},
        `${dateText(from)} to ${dateText(last)}: ${countText(count('reading'), 'reading', 'readings')}, ${countText(count('addition'), 'addition', 'additions')}. Strip readings are for screening only.`,
      ),
    ];
    if (entries.length === 0) return [...head, h('p', { class: 'lead' }, 'Nothing is written down in this time.')];
    const data = {
      entries,
      spans: this.#spans,
      from: entries[0]!.time,
      to: entries.at(-1)!.time,
    };
    const { reportSections } = await import('./report-sections.ts');
    return [...head, ...reportSections(data, Math.max(300, need(this, '.report').clientWidth))];
  }
}

/** The first moment of a day of the device's calendar, or of the one after it. Null for no date. */
function dayStart(date: string, after: 0 | 1): string | null {
  const [year, month, day] = date.split('-').map(Number);
  if (!year || !month || !day) return null;
  return new Date(year, month - 1, day + after).toISOString();
}

function dayOf(time: Date): string {
  const two = (value: number) => String(value).padStart(2, '0');
  return `${time.getFullYear()}-${two(time.getMonth() + 1)}-${two(time.getDate())}`;
}

customElements.define('log-report', LogReport);
