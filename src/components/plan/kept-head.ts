/** Above the steps: the plan that is kept, how far it is, what was done before, and what may be done with it. */
import { planHash } from '../../browser/open-plan.ts';
import { toStoreError } from '../../browser/store/failure.ts';
import { countDone } from '../../core/log/plan-left.ts';
import type { PlanEntry } from '../../core/log/schema.ts';
import type { Progress } from '../../core/progress/progress.ts';
import { amountsIn, lastDone } from '../../core/progress/rounds.ts';
import { readingsAfter } from '../../core/water/plan/readings-after.ts';
import { stepTitle } from '../../words/plan/names.ts';
import type { UnitSystem } from '../../core/water/units.ts';
import {
  dueText,
  earlierText,
  KEPT,
  keptSinceText,
  newerReadingText,
  REWORKED,
  TAKE_NEWER,
} from '../../words/kept-plan.ts';
import { failureText } from '../../words/log.ts';
import { h } from '../dom.ts';
import { keptPlan } from './kept-plan.ts';
import { readingsFrom } from './kept-readings.ts';
import { keepReadingFirst, readingTime } from './reading-kept.ts';
import { list, section } from './sections.ts';
import { amountText, undoing } from './step-progress.ts';

const said = () => h('p', { class: 'kept-said hint', role: 'status' });

/** @param hasSteps whether there is something to keep */
export function keptHead(units: UnitSystem, hasSteps: boolean): HTMLElement | null {
  const { entry } = keptPlan;
  if (!entry) return hasSteps ? offer() : null;
  const progress = keptPlan.standing()?.progress ?? null;
  return section(
    KEPT.title,
    ...(progress ? about(entry, progress, units) : [h('p', { class: 'wrong' }, KEPT.unreadable)]),
  );
}

function offer(): HTMLElement {
  const status = said();
  const keep = button(KEPT.keep, status, async () => {
    await keepReadingFirst();
    await keptPlan.keep(readingTime());
  });
  return h(
    'div',
    { class: 'keep-plan no-print' },
    h('p', {}, keep, ' ', h('span', { class: 'hint' }, KEPT.keepHint)),
    status,
  );
}

function about(entry: PlanEntry, progress: Progress, units: UnitSystem): (HTMLElement | null)[] {
  const now = new Date();
  const left = progress.steps.filter(({ state }) => state !== 'done');
  const done = countDone(entry) - left.filter((step) => step.done.length > 0).length;
  const earlier = progress.earlier.map(({ step, done: one }) =>
    earlierText(step ? stepTitle(step.kind) : one.step, amountText(step, one, units), one.time, now),
  );
  const { because } = entry.rounds.at(-1)!;
  const status = said();
  return [
    h('p', {}, keptSinceText(entry.time, done, left.length, now)),
    because === 'made' ? null : h('p', {}, REWORKED[because]),
    list(earlier, 'earlier'),
    isSlip(entry) ? h('p', { class: 'no-print' }, undoing(status)) : null,
    progress.next ? null : h('p', { class: 'lead' }, KEPT.finished),
    list(dueText(progress.dueTests, now)),
    entry.closed === null ? null : h('p', {}, KEPT.isPutAway),
    newer(status),
    h('p', { class: 'buttons no-print' }, calendar(entry, progress, status), ' ', away(entry, status)),
    status,
  ];
}

/** The last amount, from which the rest was worked out anew, can be taken back though its step stands no more. */
function isSlip(entry: PlanEntry): boolean {
  const { because, done } = entry.rounds.at(-1)!;
  return because === 'amount' && !done.some(({ entryId }) => entryId === lastDone(entry)?.entryId);
}

function newer(status: HTMLElement): HTMLElement | null {
  const reading = keptPlan.newerReading();
  if (!reading) return null;
  const take = button(TAKE_NEWER, status, () =>
    keptPlan.takeNewer((plan, entry, newest) => {
      return {
        ...plan.input,
        readings: { ...readingsAfter(plan.input, amountsIn(entry.rounds.at(-1)!, plan)), ...readingsFrom(newest) },
      };
    }),
  );
  return h('p', {}, newerReadingText(reading, new Date()), ' ', take);
}

function calendar(entry: PlanEntry, progress: Progress, status: HTMLElement): HTMLElement | null {
  if (!progress.next?.from && progress.dueTests.length === 0) return null;
  return button(KEPT.calendar, status, async () => {
    const { exportPlanCalendar } = await import('../keep/export.ts');
    exportPlanCalendar(entry, progress, planHash(entry.id));
  });
}

function away(entry: PlanEntry, status: HTMLElement): HTMLElement {
  const isAway = entry.closed !== null;
  return button(
    isAway ? KEPT.takeUp : KEPT.putAway,
    status,
    () => keptPlan.putAway(isAway ? null : new Date().toISOString()),
    'plain',
  );
}

function button(text: string, status: HTMLElement, run: () => Promise<void>, name: string | null = null): HTMLElement {
  const element = h('button', { type: 'button', class: name }, text);
  element.addEventListener('click', () => {
    element.disabled = true;
    run()
      .catch((error: unknown) => {
        console.error(error);
        status.textContent = failureText(toStoreError(error).failure);
      })
      .finally(() => (element.disabled = false));
  });
  return element;
}
