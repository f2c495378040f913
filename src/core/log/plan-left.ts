/** What is left of a plan that is kept, for pages that load little: no more than that stands here. */
import type { PlanEntry } from './schema.ts';

/** A test that was due so long ago has been given up. */
const TEST_STANDS_MILLIS = 3 * 86_400_000;

/** Whether what comes next in a plan is still to be done. @param now ISO 8601 */
export function stillStands({ kind, from }: { kind: string; from: string | null }, now: string): boolean {
  return kind !== 'test' || from === null || Date.parse(from) + TEST_STANDS_MILLIS >= Date.parse(now);
}

/** How many steps were done or begun, in all rounds. */
export function countDone({ rounds }: Pick<PlanEntry, 'rounds'>): number {
  return new Set(rounds.flatMap((round) => round.done.map(({ step }) => step))).size;
}
