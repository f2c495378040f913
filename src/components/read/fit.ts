/** Whether a reading fits what the logbook knows of the water: told on the sheet, before anybody acts on it. */
import '../../browser/zod-setup.ts';
import { openLogbook } from '../../browser/store/logbook.ts';
import { daysBefore, ESTIMATE_DAYS } from '../../core/log/time.ts';
import { misfitsOf } from '../../core/track/estimate.ts';
import { oddityText } from '../../words/water-now.ts';
import { h } from '../dom.ts';
import { type ReadingToKeep, toReadingEntry } from '../keep/reading-entry.ts';

/** @param place empty where all fits, or nothing is known */
export async function tellMisfits(place: HTMLElement, reading: ReadingToKeep): Promise<void> {
  const logbook = await openLogbook();
  const pool = await logbook.pool();
  const time = reading.time.toISOString();
  const entries = await logbook.store.entriesBetween(pool.id, daysBefore(time, ESTIMATE_DAYS), time);
  const entry = toReadingEntry(reading, { temperatureC: null, note: '' }, pool.id, null);
  const others = entries.filter((one) => one.time !== time);
  const misfits = others.some(({ kind }) => kind === 'reading') ? misfitsOf(others, pool, entry) : [];
  place.replaceChildren(...misfits.map((misfit) => h('p', { class: 'wrong' }, oddityText(misfit))));
}
