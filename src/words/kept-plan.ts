/** What is said of a plan that is kept: what is done, what comes next, how long it waits. */
import type { NextTest } from '../core/log/next-test.ts';
import type { ReadingEntry } from '../core/log/schema.ts';
import type { QuantityId } from '../core/measurement/quantities.ts';
import type { StepKind } from '../core/water/plan/step.ts';
import { stepTitle } from './plan/names.ts';
import { dateText, wallText } from './dates.ts';
import { capitalised, countText, listText, plural } from './grammar.ts';
import { quantityName } from './quantities.ts';

const MINUTE = 60_000;

/**
 * "16:05", "tomorrow at 16:05", "on 14 July at 16:05".
 * @param zoneMinutes of the clock on the wall there: an entry's own, or this device's
 */
export function whenText(iso: string, now: Date, zoneMinutes = zoneOf(iso)): string {
  const time = wallText(iso, zoneMinutes, { hour: '2-digit', minute: '2-digit' });
  const days = dayOf(Date.parse(iso), zoneMinutes) - dayOf(now.getTime(), zoneMinutes);
  if (days === 0) return time;
  const date = () => wallText(iso, zoneMinutes, { day: 'numeric', month: 'long' });
  const day = days === 1 ? 'tomorrow' : days === -1 ? 'yesterday' : `on ${date()}`;
  return `${day} at ${time}`;
}

/** "today at 16:05", "on 14 July at 16:05": of what has been. */
export function pastText(iso: string, now: Date, zoneMinutes = zoneOf(iso)): string {
  return whenText(iso, now, zoneMinutes).replace(/^(\d)/, 'today at $1');
}

const zoneOf = (iso: string) => -new Date(iso).getTimezoneOffset();

function dayOf(millis: number, zoneMinutes: number): number {
  return Math.floor((millis + zoneMinutes * MINUTE) / (1440 * MINUTE));
}

/** "1 h 20 min to go" */
export function leftText(iso: string, now: Date): string {
  const minutes = Math.max(1, Math.ceil((Date.parse(iso) - now.getTime()) / MINUTE));
  const [days, hours, rest] = [Math.floor(minutes / 1440), Math.floor((minutes % 1440) / 60), minutes % 60];
  const parts =
    days > 0
      ? [countText(days, 'day', 'days'), hours > 0 ? `${hours} h` : '']
      : [hours > 0 ? `${hours} h` : '', rest > 0 ? `${rest} min` : ''];
  return `${parts.filter(Boolean).join(' ')} to go`;
}

export function waitsText(from: string, now: Date): string {
  return `Wait until ${whenText(from, now)}: ${leftText(from, now)}.`;
}

export function testFirstText(tests: readonly QuantityId[]): string {
  return `First test the ${listText(tests.map(quantityName), 'or')} again, and keep the reading: it may change what is left.`;
}

export function doneText(time: string, amount: string | null, now: Date): string {
  const when = whenText(time, now);
  return amount === null ? `Done: ${when}. It is in the logbook.` : `Done: ${amount}, ${when}. It is in the logbook.`;
}

export function markText(part: number, times: number, isEarly: boolean): string {
  const what = times > 1 ? `Mark ${part} of ${times} done` : 'Mark done';
  return isEarly ? `${what} all the same` : what;
}

export const KEPT = {
  keep: 'Keep this plan',
  keepHint: 'It waits for you here, on the home page and in the logbook, and remembers what is done.',
  title: 'A plan you keep',
  gone: 'This plan is no longer in the logbook of this browser. It may have been deleted, or kept on another device.',
  unreadable:
    'This plan was made from a form that this edition can’t read any more. What was done stays in the logbook; make a new plan from your last reading.',
  otherForm: 'The plan below is of the form as it stands now, not the one that you keep.',
  takeForm: 'I put something right: work out the rest of the kept plan from it',
  back: 'Back to the plan you keep',
  finished: 'All steps of this plan are done.',
  putAway: 'Put this plan away',
  isPutAway: 'This plan was put away unfinished.',
  takeUp: 'Take it up again',
  calendar: 'Into my calendar',
  undo: 'Undo',
  early: 'Before its turn',
  busy: 'Writing it down...',
} as const;

export function keptSinceText(made: string, done: number, left: number, now: Date): string {
  const much = left === 0 ? 'all steps are done' : `${countText(done, 'step', 'steps')} done, ${left} to go`;
  return `Made ${pastText(made, now)}; ${much}.`;
}

/** @param name of the step, or what was written down */
export function earlierText(name: string, amount: string | null, time: string, now: Date): string {
  return amount === null ? `${name}: done ${whenText(time, now)}.` : `${name}: ${amount}, ${whenText(time, now)}.`;
}

export const REWORKED = {
  amount: 'Another amount went in than was planned, so the rest is worked out anew from what that made of the water.',
  reading: 'The rest is worked out anew from the newer reading.',
  form: 'The rest is worked out anew, as something in the form was put right.',
} as const;

export function newerReadingText({ time, zoneMinutes }: ReadingEntry, now: Date): string {
  return `The logbook has a newer reading: ${pastText(time, now, zoneMinutes)}.`;
}
export const TAKE_NEWER = 'Work out the rest from it';

export function dueText(
  tests: readonly { readonly reading: QuantityId; readonly from: string }[],
  now: Date,
): string[] {
  return tests.map(({ reading, from }) =>
    Date.parse(from) <= now.getTime()
      ? `Test the ${quantityName(reading)} again now.`
      : `Test the ${quantityName(reading)} again from ${whenText(from, now)}.`,
  );
}

/** On the home page and in the log. @param title of the step that comes next; null: only tests are left */
export function nextText(title: string | null, from: string | null, now: Date): string {
  const isOver = from === null || Date.parse(from) <= now.getTime();
  if (title === null)
    return isOver ? 'Test the water again now.' : `Test the water again from ${whenText(from!, now)}.`;
  return isOver ? `Next: ${title}.` : `Next: ${title}, from ${whenText(from, now)} (${leftText(from, now)}).`;
}

/** The plan that is under way and what comes next in it, on the home page and in the log. @param kind of step, or 'test' */
export function underWayText(done: number, kind: string, from: string | null, now: Date): string {
  const title = kindTitle(kind);
  const next = nextText(title, from, now);
  if (title === null) return `All steps of your plan are done. ${next}`;
  return `You have a plan under way${done > 0 ? `, ${plural(done, 'one step', `${done} steps`)} of it done` : ''}. ${next}`;
}

/** Of what comes next; null for a test. */
export function kindTitle(kind: string): string | null {
  return kind === 'test' ? null : lowerFirst(stepTitle(kind as StepKind));
}

function lowerFirst(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1);
}

/** "Now", "Today at 17:05" after a dose, or the day. */
export function nextTestDay({ time, reason, overdue }: NextTest, now: Date): string {
  if (overdue) return 'Now';
  return reason === 'dose' || reason === 'plan' ? capitalised(pastText(time, now).replace(/^on /, '')) : dateText(time);
}

export const OPEN_PLAN = 'Open the plan';
export const GO_ON = 'Go on with the plan';

export function calendarText(address: string): string {
  return `From the plan you keep in Dipwise, on the device where you made it: ${address}`;
}
