/** The logbook out to files, fetched when one is asked for. Each file says what it contains. */
import { toBase64 } from '../../browser/store/base64.ts';
import type { Logbook } from '../../browser/store/logbook.ts';
import { dumpStore } from '../../browser/store/open.ts';
import type { SetAside } from '../../browser/store/sound.ts';
import { zoneMinutesAt } from '../../browser/store/ids.ts';
import type { FilePicture } from '../../core/log/incoming.ts';
import { writeCalendar } from '../../core/log/ical.ts';
import type { NextTest } from '../../core/log/next-test.ts';
import { reminderTime } from '../../core/log/reminder.ts';
import {
  type Entry,
  type LogData,
  newestFirst,
  type PlanEntry,
  type Pool,
  type ReadingEntry,
} from '../../core/log/schema.ts';
import { writeLogCsv } from '../../core/log/write-csv.ts';
import { writeLogJson } from '../../core/log/write-json.ts';
import type { Progress } from '../../core/progress/progress.ts';
import { stepTitle } from '../../words/plan/names.ts';
import { calendarText, dueText } from '../../words/kept-plan.ts';
import { judgementText } from '../../words/reading.ts';
import { fileName, saveFile } from '../../browser/save-file.ts';
import { siteBase } from '../href.ts';
import { noteCopy } from './last-copy.ts';
import { nextTestText } from '../../words/log.ts';

/** Everything: all pools, entries, pictures and scales. */
export async function exportJson({ store }: Logbook): Promise<void> {
  const [pools, entries, scales] = [await store.all('pools'), await store.all('entries'), await store.all('scales')];
  async function* pictures(): AsyncGenerator<FilePicture> {
    for (const id of await store.ids('pictures')) {
      const picture = await store.get('pictures', id);
      if (picture) yield { id, base64: toBase64(picture.jpeg) };
    }
  }
  const { isNoPools, keptChoices } = await import('../../browser/choices.ts');
  const about =
    'A Dipwise logbook: all pools, readings, additions, notes and weather, with the strip scales, the pictures of the cards, what the plan’s form holds and the settings. Pictures hold no place or camera. Times are UTC.';
  const parts: string[] = [];
  const data = { pools, entries: oldestFirst(entries), scales, choices: keptChoices().filter(isNoPools) };
  for await (const part of writeLogJson(data, pictures(), new Date().toISOString(), about)) parts.push(part);
  saveFile(fileName('logbook', 'json'), parts, 'application/json');
  noteCopy(entries.length);
}

export async function exportCsv({ store }: Logbook): Promise<void> {
  const [pools, entries] = [await store.all('pools'), await store.all('entries')];
  const about =
    'A Dipwise logbook: all pools, readings (one row a value), additions, notes and weather. Pictures and strip scales are not in this file; the JSON file has them.';
  // The mark tells spreadsheets that the text is UTF-8.
  const table = `\ufeff${writeLogCsv({ pools, entries: oldestFirst(entries) }, new Date().toISOString(), { about, judgement: judgementText })}`;
  saveFile(fileName('logbook', 'csv'), [table], 'text/csv;charset=utf-8');
  noteCopy(entries.length);
}

/** What an open page still holds of a logbook that the browser has thrown away. */
export async function exportHeld(data: LogData): Promise<void> {
  const { isNoPools, keptChoices } = await import('../../browser/choices.ts');
  const about =
    'What an open page still held of a Dipwise logbook: without pictures, and perhaps without older entries.';
  const parts: string[] = [];
  const all = { ...data, entries: oldestFirst(data.entries), scales: [], choices: keptChoices().filter(isNoPools) };
  for await (const part of writeLogJson(all, [], new Date().toISOString(), about)) parts.push(part);
  saveFile(fileName('logbook', 'json'), parts, 'application/json');
}

/** What a newer program wrote, as it lies there. */
export async function exportAsItIs(): Promise<void> {
  saveFile(fileName('logbook-as-it-is', 'json'), [await dumpStore()], 'application/json');
}

/** What can't be read, as it lies there. */
export function exportSetAside(records: readonly SetAside[]): void {
  const text = JSON.stringify({ format: 'dipwise-set-aside', records }, (_key, value: unknown) =>
    value instanceof Uint8Array ? toBase64(value) : value,
  );
  saveFile(fileName('logbook-set-aside', 'json'), [text], 'application/json');
}

/** One reading that could not be kept, in a file that can be brought in later. */
export async function exportReading(entry: ReadingEntry, jpeg: Uint8Array | null, pool: Pool): Promise<void> {
  const pictures = jpeg && entry.pictureId !== null ? [{ id: entry.pictureId, base64: toBase64(jpeg) }] : [];
  const data = { pools: [pool], entries: [entry], scales: [], choices: [] };
  const parts: string[] = [];
  const about = 'One reading that could not be kept in the logbook: bring this file in on the logbook page.';
  for await (const part of writeLogJson(data, pictures, new Date().toISOString(), about)) parts.push(part);
  saveFile(fileName('reading', 'json'), parts, 'application/json');
}

export function exportCalendar(next: NextTest, pool: Pool): void {
  const now = new Date();
  const event = {
    uid: `next-test-${pool.id}@dipwise`,
    start: reminderTime(next.time, now.toISOString(), zoneMinutesAt(now)),
    minutes: 15,
    summary: `Test the pool: ${pool.name}`,
    description: nextTestText(next),
  };
  saveFile(fileName('next-test', 'ics'), [writeCalendar([event], now.toISOString())], 'text/calendar');
}

/** The next step and the tests of a plan that is kept. @param hash of it on the plan's page */
export function exportPlanCalendar(entry: PlanEntry, { next, dueTests }: Progress, hash: string): void {
  const now = new Date();
  const description = calendarText(`${siteBase()}plan/${hash}`);
  const event = (id: string, start: string, summary: string) => ({
    uid: `${id}-${entry.id}@dipwise`,
    start: start < now.toISOString() ? now.toISOString() : start,
    minutes: 15,
    summary,
    description,
  });
  const steps = next?.from ? [event('next-step', next.from, stepTitle(next.step.kind))] : [];
  const tests = dueTests.map(({ reading, from }) =>
    event(
      `test-${reading}`,
      reminderTime(from, now.toISOString(), zoneMinutesAt(now)),
      dueText([{ reading, from: now.toISOString() }], now)[0]!,
    ),
  );
  const calendar = writeCalendar([...steps, ...tests], now.toISOString());
  saveFile(fileName('plan', 'ics'), [calendar], 'text/calendar');
}

function oldestFirst(entries: readonly Entry[]): Entry[] {
  return [...entries].sort(newestFirst).reverse();
}
