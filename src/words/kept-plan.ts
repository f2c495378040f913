/** What is said of a plan that is kept: what is done, what comes next, how long it waits. */
import type { QuantityId } from '../core/measurement/quantities.ts';
import type { StepKind } from '../core/water/plan/step.ts';
import { stepTitle } from './plan/names.ts';
import { dateFormat, timeText } from './dates.ts';
import { countText, listText, plural } from './grammar.ts';
import { quantityName } from './quantities.ts';

const MINUTE = 60_000;

/** "16:05", "tomorrow at 16:05", "on 14 July at 16:05". */
export function whenText(iso: string, now: Date): string {
  const when = new Date(iso);
  const days = Math.round((midnight(when) - midnight(now)) / (1440 * MINUTE));
  if (days === 0) return timeText(when);
  const day = days === 1 ? 'tomorrow' : days === -1 ? 'yesterday' : `on ${dayFormat().format(when)}`;
  return `${day} at ${timeText(when)}`;
}

/** "today at 16:05", "on 14 July at 16:05": of what has been. */
export function pastText(iso: string, now: Date): string {
  return whenText(iso, now).replace(/^(\d)/, 'today at $1');
}

function midnight(date: Date): number {
  return new Date(date.getFullYear(), date.getMonth(), date.getDate()).getTime();
}

const dayFormat = () => dateFormat({ day: 'numeric', month: 'long' });

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

export function newerReadingText(time: string, now: Date): string {
  return `There is a newer reading in the logbook, of ${whenText(time, now)}.`;
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
    return isOver ? 'All is done. Test the water again now.' : `All is done. Test again from ${whenText(from!, now)}.`;
  return isOver ? `Next: ${title}.` : `Next: ${title}, from ${whenText(from, now)} (${leftText(from, now)}).`;
}

export function openPlanText(done: number): string {
  return `You have a plan under way${done > 0 ? `, ${plural(done, 'one step', `${done} steps`)} of it done` : ''}.`;
}

/** Of what comes next; null for a test. */
export function kindTitle(kind: string): string | null {
  return kind === 'test' ? null : lowerFirst(stepTitle(kind as StepKind));
}

function lowerFirst(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1);
}

export const OPEN_PLAN = 'Open the plan';
export const GO_ON = 'Go on with the plan';

export function calendarText(address: string): string {
  return `From the plan you keep in Dipwise, on the device where you made it: ${address}`;
}
