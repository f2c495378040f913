/** When the calendar should remind of the next test: not in the past, and not at night. */

const HOUR = 3_600_000;
const DAY = 24 * HOUR;
/** Local hours between which a reminder may come. Our own choice. */
const MORNING = 8;
const EVENING = 20;

/**
 * The due time where that lies by day; else the evening before it, or the next morning where that evening has passed.
 * What is overdue is due in an hour.
 * @param zoneMinutes local time minus UTC
 */
export function reminderTime(due: string, now: string, zoneMinutes: number): string {
  const soonest = Date.parse(now) + HOUR;
  const wanted = Math.max(Date.parse(due), soonest);
  const midnight = Math.floor((wanted + zoneMinutes * 60_000) / DAY) * DAY - zoneMinutes * 60_000;
  const hour = (wanted - midnight) / HOUR;
  if (hour >= MORNING && hour <= EVENING) return new Date(wanted).toISOString();
  const eveningBefore = midnight + (hour > EVENING ? EVENING : EVENING - 24) * HOUR;
  const nextMorning = midnight + (hour > EVENING ? MORNING + 24 : MORNING) * HOUR;
  return new Date(eveningBefore >= soonest ? eveningBefore : nextMorning).toISOString();
}
