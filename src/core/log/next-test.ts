/** When to test again: by rule, or sooner where the estimate of the water says that something may leave its span. */
import { normalShare } from '../math/normal.ts';
import type { Estimate } from '../measurement/measurement.ts';
import type { QuantityId } from '../measurement/quantities.ts';
import { ROUTINE_DAYS, SHOWS_AFTER_HOURS } from '../pool/test-times.ts';
import { additionsOf } from './chlorine-use.ts';
import { planUnderWay } from './plan-under-way.ts';
import type { Agent, Entry } from './schema.ts';
import { DAY_MILLIS } from './time.ts';
import { quantitiesIn, seriesOf } from './trends.ts';

/** What has to be tested again; the temperature is looked up when it is wanted. */
export type Tested = Exclude<QuantityId, 'temperature'>;

export interface NextTest {
  readonly time: string;
  readonly quantity: Tested;
  /** 'dose': something was added since its last reading. 'plan': the plan that is kept asks for it. */
  readonly reason: 'rule' | 'drift' | 'dose' | 'plan';
  readonly overdue: boolean;
}

interface Span {
  readonly low: number;
  readonly high: number;
}
type TargetOf = (quantity: Tested) => Span | null;

/** What the water is likely to be from the last entry on, in the order of time: 90 % intervals. */
export type Ahead = ReadonlyMap<QuantityId, readonly (Estimate & { readonly time: string })[]>;

/** @returns the earliest need among all quantities of the log; null for a log without readings */
export function nextTest(entries: readonly Entry[], targetOf: TargetOf, ahead: Ahead, now: string): NextTest | null {
  const asked = askedByPlan(entries, now);
  if (asked) return asked;
  const first = testsDue(entries, targetOf, ahead).sort((a, b) => (a.time < b.time ? -1 : 1))[0];
  return first ? { ...first, overdue: first.time <= now } : null;
}

/** When each quantity of the log is to be tested again, whatever a plan asks for. */
export function testsDue(entries: readonly Entry[], targetOf: TargetOf, ahead: Ahead): Omit<NextTest, 'overdue'>[] {
  return quantitiesIn(entries)
    .filter((quantity) => quantity !== 'temperature')
    .flatMap((quantity) => dueOf(entries, quantity, targetOf(quantity), ahead.get(quantity) ?? []));
}

/** A plan that is under way knows best: all its steps are done, and it waits for the tests it asked for. */
function askedByPlan(entries: readonly Entry[], now: string): NextTest | null {
  const { kind, from: time = null, quantity } = planUnderWay(entries, now)?.next ?? {};
  if (kind !== 'test' || time === null || quantity === undefined || quantity === 'temperature') return null;
  return { time, quantity, reason: 'plan', overdue: time <= now };
}

function dueOf(
  entries: readonly Entry[],
  quantity: Tested,
  target: Span | null,
  ahead: readonly (Estimate & { readonly time: string })[],
): Omit<NextTest, 'overdue'>[] {
  const last = seriesOf(entries, quantity).at(-1);
  if (!last) return [];
  const after = (time: string, days: number) => new Date(Date.parse(time) + days * DAY_MILLIS).toISOString();
  const dosed = additionsOf(entries)
    // Chlorine is added day by day: only what isn't asks for a test of its own.
    .filter(({ agent, time }) => time > last.time && agent !== 'chlorine')
    .filter(({ agent }) => agent === 'water' || MOVED_BY[quantity].includes(agent))
    .at(-1);
  if (dosed) return [{ time: after(dosed.time, SHOWS_AFTER_HOURS[quantity] / 24), quantity, reason: 'dose' }];
  const rule = after(last.time, ROUTINE_DAYS[quantity]);
  const leaves = target && leavesAt(ahead, target);
  if (leaves === null || leaves >= rule) return [{ time: rule, quantity, reason: 'rule' }];
  const earliest = after(last.time, EARLIEST_DAYS);
  return [{ time: leaves > earliest ? leaves : earliest, quantity, reason: 'drift' }];
}

/** A test within hours of the last one says nothing new. */
const EARLIEST_DAYS = 0.5;
/**
 * By how much the chance of lying outside the span has to rise above what the last reading left of it: readings that are
 * about as wide as their span leave some from the start, and the same test made again would leave it too.
 */
const MORE_THAN_SMALL = 0.1;

/** ISO 8601, between the two moments where the chance passes the limit; null where it doesn't. */
function leavesAt(ahead: readonly (Estimate & { readonly time: string })[], span: Span): string | null {
  const chances = ahead.map((estimate) => chanceOutside(estimate, span));
  const limit = chances[0]! + MORE_THAN_SMALL;
  const i = chances.findIndex((chance) => chance > limit);
  if (i < 1) return null;
  const [before, after] = [Date.parse(ahead[i - 1]!.time), Date.parse(ahead[i]!.time)];
  const share = (limit - chances[i - 1]!) / (chances[i]! - chances[i - 1]!);
  return new Date(before + share * (after - before)).toISOString();
}

function chanceOutside({ value, low, high }: Estimate, span: Span): number {
  const deviation = Math.max((high - low) / (2 * Z90), 1e-9);
  return normalShare((span.low - value) / deviation) + normalShare((value - span.high) / deviation);
}

/** Standard normal quantile of 0.95. */
const Z90 = 1.644853627;

const CHLORINE_MOVERS: readonly Agent[] = ['chlorine', 'chlorine-remover', 'other'];
const MOVED_BY: Readonly<Record<Tested, readonly Agent[]>> = {
  'free-chlorine': CHLORINE_MOVERS,
  'total-chlorine': CHLORINE_MOVERS,
  ph: ['acid', 'base', 'bicarbonate', 'chlorine', 'stabilizer', 'other'],
  'total-alkalinity': ['acid', 'base', 'bicarbonate', 'other'],
  'total-hardness': ['calcium', 'other'],
  'calcium-hardness': ['calcium', 'chlorine', 'other'],
  'cyanuric-acid': ['stabilizer', 'chlorine', 'other'],
  salt: ['salt', 'other'],
  boron: ['other'],
};
