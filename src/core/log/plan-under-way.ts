/** Which plan is under way, for the home page, the log and its calendar alike. */
import { stillStands } from './plan-left.ts';
import type { Entry, PlanEntry } from './schema.ts';

export type PlanUnderWay = PlanEntry & { readonly next: NonNullable<PlanEntry['next']> };

/**
 * The newest plan with something left to do; where only its tests are left, one that no reading has followed.
 * @param entries in the order of time
 */
export function planUnderWay(entries: readonly Entry[], now: string): PlanUnderWay | null {
  const plan = entries.findLast((entry) => entry.kind === 'plan' && entry.closed === null && entry.next !== null);
  if (plan?.kind !== 'plan' || !plan.next || !stillStands(plan.next, now)) return null;
  const { next } = plan;
  if (next.kind === 'test') {
    const done = plan.rounds.flatMap((round) => round.done).map(({ time }) => time);
    const last = done.sort().at(-1) ?? plan.time;
    if (entries.some(({ kind, time }) => kind === 'reading' && time > last)) return null;
  }
  return { ...plan, next };
}
