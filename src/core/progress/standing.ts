/** Where a pool stands and how it came there: all that the log's page shows of it, from its entries. */
import { acidUse } from '../log/acid-use.ts';
import { chlorineUse, type LearntRate, worthTelling } from '../log/chlorine-use.ts';
import { type NextTest, nextTest } from '../log/next-test.ts';
import { planUnderWay, type PlanUnderWay } from '../log/plan-under-way.ts';
import type { Entry, Pool } from '../log/schema.ts';
import { changesSinceLast, type QuantityChange, thinned, type Trend, trendOf } from '../log/trends.ts';
import type { Spans } from '../reading/spans.ts';
import { type Course, waterCourse, type WaterNow } from '../track/estimate.ts';
import type { DoseResult } from './dose-results.ts';

export interface StandingQuestion {
  readonly pool: Pool;
  readonly spans: Spans;
  readonly now: string;
  /** The first and the last entry that count, ISO 8601. */
  readonly from: string;
  readonly last: string;
  /** Of when the estimate is. */
  readonly at: string;
  /** From when on entries tell of this season, and from when on the trend is drawn. */
  readonly lately: string;
  readonly trendFrom: string;
}

export interface PoolStanding {
  /** By all readings together; null where there is none. */
  readonly estimate: WaterNow | null;
  /** What the water was taken for. */
  readonly course: Course;
  readonly doseResults: readonly DoseResult[];
  readonly plan: PlanUnderWay | null;
  readonly changes: readonly QuantityChange[];
  /** mg/L of free chlorine a day, and moles of acid a week, where the log tells. */
  readonly chlorine: LearntRate | null;
  readonly acid: LearntRate | null;
  readonly next: NextTest | null;
  readonly trend: Trend;
}

/** @param entries between the question's first and last, in the order of time */
export async function standingOf(
  entries: readonly Entry[],
  { pool, spans, now, at, lately, trendFrom }: StandingQuestion,
): Promise<PoolStanding> {
  const late = entries.filter(({ time }) => time >= lately);
  const found = waterCourse(entries, pool, at);
  const ahead: Course = found?.ahead ?? new Map();
  const estimate = found && { ...found.now, oddities: found.now.oddities.filter(({ to }) => to >= lately) };
  return {
    estimate,
    course: new Map([...(found?.course ?? [])].map(([quantity, points]) => [quantity, thinned(points)])),
    doseResults: await doseResultsIn(late),
    plan: planUnderWay(late, now),
    changes: changesSinceLast(late),
    chlorine: worthTelling(chlorineUse(late, pool)),
    acid: worthTelling(acidUse(late)),
    next: nextTest(late, (quantity) => spans[quantity] ?? null, ahead, now),
    trend: trendOf(entries.filter(({ time }) => time >= trendFrom)),
  };
}

/** The plan's chemistry is fetched only where there is a plan with something done. */
async function doseResultsIn(entries: readonly Entry[]): Promise<readonly DoseResult[]> {
  const hasDone = entries.some((entry) => entry.kind === 'plan' && entry.rounds.some(({ done }) => done.length > 0));
  if (!hasDone) return [];
  const { doseResultsOf } = await import('./dose-results.ts');
  return doseResultsOf(entries);
}
