/** How a kept plan changes: a step done, taken back, the rest worked out anew. Each gives the plan as it is then. */
import type { Done, PlanEntry, PlanRound } from '../log/schema.ts';
import { MONTHS } from '../pool/climate.ts';
import { WaterError } from '../water/errors.ts';
import { planFrom } from '../water/plan/make-plan.ts';
import { readingsAfter, type DoneAmount } from '../water/plan/readings-after.ts';
import type { Plan } from '../water/plan/types.ts';
import { progressOf, type Progress, type Tested, type WorkedOut } from './progress.ts';

export interface OpenPlan {
  readonly entry: PlanEntry;
  /** Of the last round; null where this program can't make a plan of it any more. */
  readonly plan: Plan | null;
  readonly progress: Progress | null;
}

/** Works out where a kept plan stands. */
export function opened(entry: PlanEntry, tested: readonly Tested[], now: string): OpenPlan {
  const worked = entry.rounds.map((round): WorkedOut => ({ round, plan: planOf(round.input) }));
  const { round, plan } = worked.at(-1)!;
  if (!plan) return { entry, plan, progress: null };
  return { entry, plan, progress: progressOf({ round, plan }, worked.slice(0, -1), tested, now) };
}

function planOf(input: unknown): Plan | null {
  const outcome = planFrom(input);
  return outcome.ok ? outcome.plan : null;
}

/** @param plan of the last round */
export function withDone(entry: PlanEntry, plan: Plan, done: Done): PlanEntry {
  const before = entry.rounds.slice(0, -1);
  const last = entry.rounds.at(-1)!;
  const round = { ...last, done: [...last.done, done] };
  const asPlanned = done.amount === null || done.planned === null || done.amount === done.planned;
  const rest = asPlanned ? null : restOf(round, plan, done.time);
  return standing({ ...entry, rounds: [...before, round, ...(rest ? [rest] : [])] }, done.time);
}

/** The rest from the water that the amounts done so far have made; null where that would be no water. */
function restOf(round: PlanRound, plan: Plan, time: string): PlanRound | null {
  try {
    const readings = readingsAfter(plan.input, amountsIn(round, plan));
    const month = plan.input.month && MONTHS[new Date(time).getUTCMonth()];
    const input = asJson({ ...plan.input, readings, month });
    const next = planOf(input);
    return next && { time, because: 'amount', input, done: stillDone(round, next) };
  } catch (error) {
    if (error instanceof WaterError) return null;
    throw error;
  }
}

/** What went in. @param plan of the round */
export function amountsIn({ done }: PlanRound, plan: Plan): DoneAmount[] {
  return done.flatMap(({ step: id, amount }) => {
    const step = plan.steps.find((one) => one.id === id);
    return step && amount !== null ? [{ step, amount }] : [];
  });
}

/** What has no amount isn't in the readings: it is done in the new plan too. */
function stillDone({ done }: PlanRound, plan: Plan): Done[] {
  const ids = new Set(plan.steps.map(({ id }) => id));
  return done.filter(({ step, amount }) => amount === null && ids.has(step));
}

/** @param input of a plan, from a new reading or a form that was put right */
export function workedAnew(
  entry: PlanEntry,
  input: PlanRound['input'],
  because: 'reading' | 'form',
  time: string,
): PlanEntry {
  const plan = planOf(input);
  const last = entry.rounds.at(-1)!;
  const round = { time, because, input: asJson(input), done: plan ? stillDone(last, plan) : [] };
  return standing({ ...entry, rounds: [...entry.rounds, round] }, time);
}

/** What was done last, and so may be taken back; null where nothing was. */
export function lastDone({ rounds }: PlanEntry): Done | null {
  const done = rounds.flatMap((round) => round.done);
  return done.reduce<Done | null>((last, one) => (last === null || one.time >= last.time ? one : last), null);
}

/** @returns the plan without what was done last; a rest that was worked out from it goes too */
export function withoutLast(entry: PlanEntry, now: string): PlanEntry {
  const last = lastDone(entry);
  if (!last) return entry;
  const at = entry.rounds.findIndex(({ done }) => done.some(({ entryId }) => entryId === last.entryId));
  const kept = entry.rounds.slice(0, at + 1).map((round) => ({
    ...round,
    done: round.done.filter(({ entryId }) => entryId !== last.entryId),
  }));
  return standing({ ...entry, rounds: kept }, now);
}

/** With what comes next, for those who don't work out the plan. */
export function standing(entry: PlanEntry, now: string): PlanEntry {
  const { progress } = opened(entry, [], now);
  return { ...entry, next: nextOf(progress) };
}

function nextOf(progress: Progress | null): PlanEntry['next'] {
  if (!progress) return null;
  if (progress.next) return { kind: progress.next.step.kind, from: progress.next.from };
  const first = [...progress.dueTests].sort((a, b) => (a.from < b.from ? -1 : 1))[0];
  return first ? { kind: 'test', from: first.from, quantity: first.reading } : null;
}

/** As a file has it: without what is undefined. */
function asJson(input: unknown): PlanRound['input'] {
  return JSON.parse(JSON.stringify(input)) as PlanRound['input'];
}
