/** What the logbook has learnt of the pool's use: the plan goes by it, with its doubt, until it is told not to. */
import '../../browser/zod-setup.ts';
import { forget, remember, remembered } from '../../browser/remembered.ts';
import { openLogbook } from '../../browser/store/logbook.ts';
import { acidUse } from '../../core/log/acid-use.ts';
import { chlorineUse, type LearntRate, worthTelling } from '../../core/log/chlorine-use.ts';
import type { Entry, Pool } from '../../core/log/schema.ts';
import { waterNow, type WaterNow } from '../../core/track/estimate.ts';
import { daysBefore, ESTIMATE_DAYS, LATELY_DAYS } from '../../core/log/time.ts';
import { goByText } from '../../words/water-now.ts';
import { h, need } from '../dom.ts';
import { acidTexts } from '../keep/acid-rate.ts';
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
  const now = new Date().toISOString();
  const [from, longAgo] = [daysBefore(now, LATELY_DAYS), daysBefore(now, ESTIMATE_DAYS)];
  const entries = await logbook.store.entriesBetween(pool.id, from, '\uffff');
  const [chlorine, acid] = [chlorineUse(entries, pool), acidUse(entries)].map(worthTelling);
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
  for (const strength of strengthsOf(await logbook.store.entriesBetween(pool.id, longAgo, '\uffff'), pool)) {
    const refused = `learnt-strength-refused-${strength.product}`;
    const shelf = document.querySelector<HTMLElement>(`[data-product="${strength.product}"]`);
    const box = h('input', { type: 'checkbox', checked: remembered(refused) === null });
    const go = () => {
      if (!shelf) return;
      if (box.checked) shelf.dataset['learnt'] = String(strength.value);
      else delete shelf.dataset['learnt'];
    };
    box.addEventListener('input', () => {
      if (box.checked) forget(refused);
      else remember(refused, 'yes');
      go();
    });
    go();
    offers.push(h('label', {}, box, ` ${goByText(strength)}`));
  }
  if (acid) {
    offers.push(h('p', { class: 'hint' }, `By the logbook it also takes about ${acidTexts(acid).join(' ')} a week.`));
  }
  need(place, '.offer').replaceChildren(...offers);
  place.hidden = offers.length === 0;
  return put;
}

/** Only what a bottle can be: anything else is another fault of the log. */
function strengthsOf(entries: readonly Entry[], pool: Pool): WaterNow['learnt']['strengths'] {
  const now = waterNow(entries, pool, new Date().toISOString());
  return (now?.learnt.strengths ?? []).filter(({ value }) => value >= 0.5 && value <= 1.5);
}

function putUse(place: HTMLElement, use: LearntRate | null): void {
  for (const end of ['value', 'low', 'high'] as const) {
    need<HTMLInputElement>(place, `[data-at="chlorineUse.${end}"]`).value = use ? String(use[end]) : '';
  }
}

function offerText(use: LearntRate): string {
  return ` Go by the chlorine use in the logbook: ${rateText(use)} mg/L a day, from ${use.count} readings. Two readings given under ‘How fast the chlorine goes’ go before it.`;
}
