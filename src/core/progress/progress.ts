/** How far a kept plan has come: what is done, what comes next and from when on, what is still to be tested. */
import type { Done, PlanRound } from '../log/schema.ts';
import { daysBefore } from '../log/time.ts';
import type { QuantityId } from '../measurement/quantities.ts';
import { hoursBetween, turnoverHours } from '../water/plan/make-plan.ts';
import { waitBefore } from '../water/plan/order.ts';
import type { Step, StepKind } from '../water/plan/step.ts';
import type { Plan } from '../water/plan/types.ts';

export interface StepProgress {
  readonly step: Step;
  /** How many times something is poured, or let out. */
  readonly times: number;
  readonly done: readonly Done[];
  /** 'for-test': what was done before must be looked at by a test first. */
  readonly state: 'done' | 'now' | 'waits' | 'for-test' | 'later';
  /** From when on it may be done, ISO 8601; null for at once. */
  readonly from: string | null;
  /** What to test first, where it is 'for-test'. */
  readonly tests: readonly QuantityId[];
}

export interface DueTest {
  readonly reading: QuantityId;
  readonly from: string;
}

export interface Progress {
  readonly steps: readonly StepProgress[];
  /** The first step that isn't done; null when all are. */
  readonly next: StepProgress | null;
  /** Done before the rest was worked out anew. */
  readonly earlier: readonly { readonly step: Step | null; readonly done: Done }[];
  /** What the plan asks for afterwards, counted from the last thing done; empty until all is done. */
  readonly dueTests: readonly DueTest[];
  /** When the last thing was done. */
  readonly lastDone: string | null;
}

/** A reading made meanwhile. */
export interface Tested {
  readonly time: string;
  readonly quantities: readonly QuantityId[];
}

export interface WorkedOut {
  readonly round: PlanRound;
  /** Null where this program can't make a plan of that input any more. */
  readonly plan: Plan | null;
}

export function timesOf({ parts, replace }: Pick<Step, 'parts' | 'replace'>): number {
  return replace?.times ?? parts;
}

/**
 * @param current the last round
 * @param before the earlier ones
 * @param tested the readings of the pool since the plan was made
 */
export function progressOf(
  current: { readonly round: PlanRound; readonly plan: Plan },
  before: readonly WorkedOut[],
  tested: readonly Tested[],
  now: string,
): Progress {
  const { round, plan } = current;
  const earlier = before.flatMap((one) =>
    one.round.done.map((done) => ({ step: one.plan?.steps.find(({ id }) => id === done.step) ?? null, done })),
  );
  const walk = new Walk(plan, round, earlier, tested, now);
  const steps = plan.steps.map((step) => walk.next(step));
  const next = steps.find(({ state }) => state !== 'done') ?? null;
  const lastDone = latest([...earlier.map(({ done }) => done), ...round.done]);
  const dueTests = next || lastDone === null ? [] : dueAfter(plan, lastDone, tested);
  return { steps, next, earlier, dueTests, lastDone };
}

interface DoneStep {
  readonly step: Step;
  readonly time: string;
}

/** Goes through the steps in their order. */
class Walk {
  readonly #round: PlanRound;
  readonly #tested: readonly Tested[];
  readonly #now: string;
  readonly #turnover: number;
  /** All that was done so far, in the order of time. */
  readonly #done: DoneStep[];
  #isNextFound = false;

  constructor(plan: Plan, round: PlanRound, earlier: Progress['earlier'], tested: readonly Tested[], now: string) {
    [this.#round, this.#tested, this.#now] = [round, tested, now];
    this.#turnover = turnoverHours(plan.input);
    this.#done = earlier.flatMap(({ step, done }) => (step ? [{ step, time: done.time }] : []));
  }

  next(step: Step): StepProgress {
    const done = this.#round.done.filter((one) => one.step === step.id);
    const times = timesOf(step);
    const common = { step, times, done };
    const time = latest(done);
    if (time !== null) this.#done.push({ step, time });
    if (done.length >= times) return { ...common, state: 'done', from: null, tests: [] };
    const isNext = !this.#isNextFound;
    this.#isNextFound = true;
    const from = this.#from(step, time);
    if (!isNext) return { ...common, state: 'later', from: null, tests: [] };
    const tests = this.#missingTests(step, time);
    if (from !== null && from > this.#now) return { ...common, state: 'waits', from, tests };
    return { ...common, state: tests.length > 0 ? 'for-test' : 'now', from, tests };
  }

  /** Since the last part, or since what was done before it. */
  #from(step: Step, lastPart: string | null): string | null {
    if (lastPart !== null) return later(lastPart, this.#hoursBetween(step));
    const last = this.#done.at(-1);
    if (!last) return null;
    if (last.step.kind === step.kind) return later(last.time, this.#hoursBetween(step));
    const steps = this.#done.map((one) => one.step);
    const wait = step.waitFirst ?? waitBefore({ turnoverHours: this.#turnover }, step, steps);
    return wait ? later(last.time, wait.hours) : null;
  }

  /** Between parts of one dose, also where the rest of it was worked out anew and is one part now. */
  #hoursBetween({ hoursBetweenParts, kind }: Step): number {
    return hoursBetweenParts > 0 ? hoursBetweenParts : hoursBetween({ turnoverHours: this.#turnover }, kind);
  }

  /** Parts are tested in between; and so is what a step says must be tested before going on. */
  #missingTests(step: Step, lastPart: string | null): QuantityId[] {
    const last = this.#done.at(-1);
    const since = lastPart ?? last?.time;
    if (since === undefined) return [];
    const asks = lastPart !== null ? step : last!.step;
    const isAsked = lastPart !== null || asks.notes.some((note) => ASKS_FOR_TEST.has(note));
    if (!isAsked) return [];
    const read = new Set(this.#tested.filter(({ time }) => time > since).flatMap(({ quantities }) => quantities));
    const wanted = TESTED_AFTER[asks.kind] ?? [];
    // Any of them tells that the water was looked at.
    return wanted.some((quantity) => read.has(quantity)) ? [] : [...wanted];
  }
}

const ASKS_FOR_TEST: ReadonlySet<string> = new Set<Step['notes'][number]>([
  'retest-before-going-on',
  'repeat-until-it-holds',
]);

/** What a step is looked at by. */
export const TESTED_AFTER: Partial<Record<StepKind, readonly QuantityId[]>> = {
  'replace-water': ['ph', 'total-alkalinity', 'calcium-hardness', 'total-hardness', 'cyanuric-acid', 'salt'],
  'raise-alkalinity': ['total-alkalinity'],
  'lower-ph': ['ph'],
  'raise-ph': ['ph'],
  aerate: ['ph'],
  'raise-chlorine': ['free-chlorine'],
  'clear-algae': ['free-chlorine'],
  'oxidise-combined': ['free-chlorine', 'total-chlorine'],
  'lower-chlorine': ['free-chlorine'],
  'wait-for-chlorine': ['free-chlorine'],
  'run-chlorinator': ['free-chlorine'],
  'raise-salt': ['salt'],
  'raise-stabilizer': ['cyanuric-acid'],
  'raise-hardness': ['calcium-hardness', 'total-hardness'],
};

function dueAfter({ retests }: Plan, lastDone: string, tested: readonly Tested[]): DueTest[] {
  const read = new Set(tested.filter(({ time }) => time > lastDone).flatMap(({ quantities }) => quantities));
  return retests
    .filter(({ reading }) => !read.has(reading))
    .map(({ reading, afterHours }) => ({ reading, from: later(lastDone, afterHours) }));
}

function latest(done: readonly Done[]): string | null {
  return done.reduce<string | null>((last, { time }) => (last === null || time > last ? time : last), null);
}

function later(iso: string, hours: number): string {
  return daysBefore(iso, -hours / 24);
}
