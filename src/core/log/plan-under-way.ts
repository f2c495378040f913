/** Which plan is under way, for the home page, the log and its calendar alike. */
import type { Entry, PlanEntry } from './schema.ts';
import { DAY_MILLIS } from './time.ts';

/** A test that was due so long ago has been given up. */
const TEST_STANDS_MILLIS = 3 * DAY_MILLIS;

/** Whether what comes next in a plan is still to be done. @param now ISO 8601 */
export function stillStands({ kind, from }: { kind: string; from: string | null }, now: string): boolean {
  return kind !== 'test' || from === null || Date.parse(from) + TEST_STANDS_MILLIS >= Date.parse(now);
}

/** How many steps were done or begun, in all rounds. */
export function countDone({ rounds }: Pick<PlanEntry, 'rounds'>): number {
  return new Set(rounds.flatMap((round) => round.done.map(({ step }) => step))).size;
}

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
