/** What the logbook has learnt of the pool's use, offered to the plan with its doubt. */
import { openLogbook } from '../../browser/store/logbook.ts';
import { acidUse } from '../../core/log/acid-use.ts';
import { chlorineUse, type LearntRate } from '../../core/log/chlorine-use.ts';
import { hydrochloricMmolPerMl } from '../../core/water/strength.ts';
import { h, need } from '../dom.ts';
import { rateText } from './measures.ts';

const LATELY_MILLIS = 120 * 86_400_000;

class LearntUse extends HTMLElement {
  connectedCallback(): void {
    void this.#open();
  }

  async #open(): Promise<void> {
    const logbook = await openLogbook();
    const pool = await logbook.pool();
    const from = new Date(Date.now() - LATELY_MILLIS).toISOString();
    const entries = await logbook.store.entriesBetween(pool.id, from, '\uffff');
    const [chlorine, acid] = [chlorineUse(entries, pool), acidUse(entries)];
    const place = need(this, '.offer');
    if (chlorine) place.append(this.#offer(chlorine));
    if (acid) {
      const litres = rateText(acid, 1 / hydrochloricMmolPerMl(31.45));
      place.append(
        h(
          'p',
          { class: 'hint' },
          `By the logbook it also takes about ${litres} L of hydrochloric acid (31.45 %) a week.`,
        ),
      );
    }
  }

  #offer(use: LearntRate): HTMLElement {
    const box = h('input', { type: 'checkbox' });
    box.addEventListener('change', () => {
      for (const end of ['value', 'low', 'high'] as const) {
        need<HTMLInputElement>(this, `[data-at="chlorineUse.${end}"]`).value = box.checked ? String(use[end]) : '';
      }
      // The change of the box itself goes on to the plan's form, after the numbers are in.
      this.dispatchEvent(new Event('input', { bubbles: true }));
    });
    return h(
      'label',
      {},
      box,
      ` Go by the logbook: ${rateText(use)} mg/L a day, from ${use.count} readings. Two readings given above go before it.`,
    );
  }
}

customElements.define('learnt-use', LearntUse);
