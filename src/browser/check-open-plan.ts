/** Puts right what is remembered of the plan under way, where the store was opened all the same. */
import { planUnderWay } from '../core/log/plan-under-way.ts';
import type { Entry } from '../core/log/schema.ts';
import { markPlan, OPEN_PLAN_EVENT, openPlanMark, unmarkPlan } from './open-plan.ts';

/** A test may have been made since, or the mark lost. @param entries of a pool */
export function checkOpenPlan(entries: readonly Entry[], now: string): void {
  const mark = openPlanMark();
  const plan = planUnderWay(entries, now);
  const isOver = mark !== null && mark.id !== plan?.id && entries.some(({ id }) => id === mark.id);
  if (isOver) unmarkPlan(mark.id);
  if (plan && (isOver || mark === null)) markPlan(plan);
  if (isOver || (plan && mark === null)) dispatchEvent(new Event(OPEN_PLAN_EVENT));
}
