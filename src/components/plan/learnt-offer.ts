/** What the logbook has learnt of the pool's use: the plan goes by it, with its doubt, until it is told not to. */
import '../../browser/zod-setup.ts';
import { forget, remember, remembered } from '../../browser/remembered.ts';
import { openLogbook } from '../../browser/store/logbook.ts';
import { acidUse } from '../../core/log/acid-use.ts';
import { chlorineUse, type LearntRate } from '../../core/log/chlorine-use.ts';
import { daysBefore, LATELY_DAYS } from '../../core/log/time.ts';
import { hydrochloricMmolPerMl } from '../../core/water/strength.ts';
import { h, need } from '../dom.ts';
import { rateText } from '../keep/measures.ts';

/** Whether somebody wants the plan to go without. */
const REFUSED_KEY = 'learnt-use-refused';
/** mg/L a day: nobody's pool uses more, so something in the log is wrong. */
const MAX_USE = 100;

/**
 * @param place with the hidden fields of the use, shown where there is something to say
 * @returns what puts the use into those fields, or blanks where it was refused
 */
export async function offerLearnt(place: HTMLElement): Promise<() => void> {
  const logbook = await openLogbook();
  const pool = await logbook.pool();
  const from = daysBefore(new Date().toISOString(), LATELY_DAYS);
  const entries = await logbook.store.entriesBetween(pool.id, from, '\uffff');
  const [chlorine, acid] = [chlorineUse(entries, pool), acidUse(entries)];
  const offers: HTMLElement[] = [];
  let put = (): void => undefined;
  if (chlorine && chlorine.high <= MAX_USE) {
    const box = h('input', { type: 'checkbox', checked: remembered(REFUSED_KEY) === null });
    put = () => putUse(place, box.checked ? chlorine : null);
    box.addEventListener('input', () => {
      if (box.checked) forget(REFUSED_KEY);
      else remember(REFUSED_KEY, 'yes');
      // The box's own event goes on to the plan's form.
      put();
    });
    offers.push(h('label', {}, box, offerText(chlorine)));
  }
  if (acid) {
    const litres = rateText(acid, 1 / hydrochloricMmolPerMl(31.45));
    offers.push(
      h(
        'p',
        { class: 'hint' },
        `By the logbook it also takes about ${litres} L of hydrochloric acid (31.45 %) a week.`,
      ),
    );
  }
  need(place, '.offer').replaceChildren(...offers);
  place.hidden = offers.length === 0;
  return put;
}

function putUse(place: HTMLElement, use: LearntRate | null): void {
  for (const end of ['value', 'low', 'high'] as const) {
    need<HTMLInputElement>(place, `[data-at="chlorineUse.${end}"]`).value = use ? String(use[end]) : '';
  }
}

function offerText(use: LearntRate): string {
  return ` Go by the chlorine use in the logbook: ${rateText(use)} mg/L a day, from ${use.count} readings. Two readings given under ‘How fast the chlorine goes’ go before it.`;
}
