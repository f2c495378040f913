/** What the logbook has learnt of the pool's use, offered to the plan with its doubt. */
import '../../browser/zod-setup.ts';
import { openLogbook } from '../../browser/store/logbook.ts';
import { acidUse } from '../../core/log/acid-use.ts';
import { chlorineUse, type LearntRate } from '../../core/log/chlorine-use.ts';
import { daysBefore, LATELY_DAYS } from '../../core/log/time.ts';
import { hydrochloricMmolPerMl } from '../../core/water/strength.ts';
import { h, need } from '../dom.ts';
import { rateText } from '../keep/measures.ts';

export async function offerLearnt(place: HTMLElement): Promise<void> {
  const logbook = await openLogbook();
  const pool = await logbook.pool();
  const from = daysBefore(new Date().toISOString(), LATELY_DAYS);
  const entries = await logbook.store.entriesBetween(pool.id, from, '\uffff');
  const [chlorine, acid] = [chlorineUse(entries, pool), acidUse(entries)];
  const offers = need(place, '.offer');
  if (chlorine) offers.append(offer(place, chlorine));
  if (acid) {
    const litres = rateText(acid, 1 / hydrochloricMmolPerMl(31.45));
    offers.append(
      h(
        'p',
        { class: 'hint' },
        `By the logbook it also takes about ${litres} L of hydrochloric acid (31.45 %) a week.`,
      ),
    );
  }
}

function offer(place: HTMLElement, use: LearntRate): HTMLElement {
  const box = h('input', { type: 'checkbox' });
  box.addEventListener('change', () => {
    for (const end of ['value', 'low', 'high'] as const) {
      need<HTMLInputElement>(place, `[data-at="chlorineUse.${end}"]`).value = box.checked ? String(use[end]) : '';
    }
    // The change of the box itself goes on to the plan's form, after the numbers are in.
    place.dispatchEvent(new Event('input', { bubbles: true }));
  });
  return h(
    'label',
    {},
    box,
    ` Go by the logbook: ${rateText(use)} mg/L a day, from ${use.count} readings. Two readings given above go before it.`,
  );
}
