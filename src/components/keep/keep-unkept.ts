/** "Keep the reading" on the plan's page, where its values came from a reading that isn't in the logbook yet. */
import '../../browser/zod-setup.ts';
import { jpegFromBase64 } from '../../browser/store/base64.ts';
import { toStoreError } from '../../browser/store/failure.ts';
import { newId } from '../../browser/store/ids.ts';
import { openLogbook } from '../../browser/store/logbook.ts';
import { forgetUnkept, type Unkept, unkept } from '../../browser/unkept.ts';
import { cleanText } from '../../core/text.ts';
import { withTiming } from '../../core/reading/timing.ts';
import { h } from '../dom.ts';
import { href } from '../href.ts';
import { typedCelsius } from './measures.ts';
import { toReadingEntry } from './reading-entry.ts';
import { failureText, NOTICES } from '../../words/log.ts';

/** @param time of the reading whose values stand in the plan; null where that one has been kept, or is gone */
export function keepUnkept(time: string): HTMLElement | null {
  const waiting = unkept();
  if (waiting?.time !== time) return null;
  const said = h('span', { role: 'status' }, 'It isn’t in the logbook yet. ');
  const button = h('button', { type: 'button' }, 'Keep the reading');
  button.addEventListener('click', () => {
    button.disabled = true;
    void keep(waiting).then(
      (text) => {
        button.remove();
        said.replaceChildren(`${text} `, h('a', { href: href('log/') }, 'Open the logbook'));
      },
      (error: unknown) => {
        console.error(error);
        button.disabled = false;
        said.textContent = `${failureText(toStoreError(error).failure)} `;
      },
    );
  });
  return h('span', { class: 'keep-unkept no-print' }, said, button);
}

/** Keeps the reading of that time if it still waits in this tab. */
export async function keepWaiting(time: string): Promise<void> {
  const waiting = unkept();
  if (waiting?.time === time) await keep(waiting);
}

async function keep(waiting: Unkept): Promise<string> {
  // Kept with the plan meanwhile.
  if (unkept()?.time !== waiting.time) return 'It is in the logbook.';
  const said = await keepReadingOf(waiting);
  forgetUnkept();
  return said;
}

/** Keeps a reading as its sheet stands. @returns what is said of it @throws StoreError */
export async function keepReadingOf(waiting: Unkept): Promise<string> {
  const { outcome, scale, sinceDipSeconds, targets, byHand, picture, water, note } = waiting;
  const logbook = await openLogbook();
  const jpeg = picture === null ? null : jpegFromBase64(picture);
  const pads = outcome.pads.map((pad, i) => ({ pad, target: targets[i]!, byHand: byHand[i]! }));
  const judged = withTiming(outcome, scale, sinceDipSeconds);
  const pool = await logbook.pool();
  const reading = { pads, outcome: judged, scale, time: new Date(waiting.time), sinceDipSeconds };
  const celsius = typedCelsius(water);
  const beside = { temperatureC: Number.isNaN(celsius) ? null : celsius, note: cleanText(note, 2000).trim() };
  const entry = toReadingEntry(reading, beside, pool.id, jpeg ? newId() : null);
  await logbook.keepReading(entry, jpeg);
  return `Kept in the logbook of ${pool.name}.${logbook.store.kind === 'memory' ? ` ${NOTICES.memory}` : ''}`;
}
