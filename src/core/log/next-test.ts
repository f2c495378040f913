/** When to test again: by rule, or sooner where the log says that a reading will have drifted out of its span. */
import { commonSlope, type Slope } from '../math/slope.ts';
import type { QuantityId } from '../measurement/quantities.ts';
import { ROUTINE_DAYS, SHOWS_AFTER_HOURS } from '../pool/test-times.ts';
import { additionsOf, recent, splitSeries } from './chlorine-use.ts';
import type { Agent, Entry } from './schema.ts';
import { DAY_MILLIS, daysBetween } from './time.ts';
import { quantitiesIn, seriesOf, type TrendPoint } from './trends.ts';

/** What has to be tested again; the temperature is looked up when it is wanted. */
export type Tested = Exclude<QuantityId, 'temperature'>;

export interface NextTest {
  readonly time: string;
  readonly quantity: Tested;
  /** 'dose': something was added since its last reading. 'plan': the plan that is kept asks for it. */
  readonly reason: 'rule' | 'drift' | 'dose' | 'plan';
  readonly overdue: boolean;
}

type TargetOf = (quantity: Tested) => { readonly low: number; readonly high: number } | null;

/** @returns the earliest need among all quantities of the log; null for a log without readings */
export function nextTest(entries: readonly Entry[], targetOf: TargetOf, now: string): NextTest | null {
  const asked = askedByPlan(entries, now);
  if (asked) return asked;
  const due = quantitiesIn(entries)
    .filter((quantity) => quantity !== 'temperature')
    .flatMap((quantity) => dueOf(entries, quantity, targetOf(quantity)));
  const first = due.sort((a, b) => a.millis - b.millis)[0];
  if (!first) return null;
  const { millis, quantity, reason } = first;
  return { time: new Date(millis).toISOString(), quantity, reason, overdue: millis <= Date.parse(now) };
}

/** A plan that is under way knows best: all its steps are done, and it waits for the tests it asked for. */
function askedByPlan(entries: readonly Entry[], now: string): NextTest | null {
  const plan = entries.filter((entry) => entry.kind === 'plan' && entry.closed === null).at(-1);
  if (plan?.kind !== 'plan' || plan.next?.kind !== 'test' || plan.next.from === null) return null;
  const done = plan.rounds.flatMap((round) => round.done).map(({ time }) => time);
  const last = done.sort().at(-1) ?? plan.time;
  if (entries.some(({ kind, time }) => kind === 'reading' && time > last)) return null;
  const { from: time, quantity } = plan.next;
  if (quantity === undefined || quantity === 'temperature') return null;
  return { time, quantity, reason: 'plan', overdue: time <= now };
}

function dueOf(
  entries: readonly Entry[],
  quantity: Tested,
  target: { readonly low: number; readonly high: number } | null,
): { millis: number; quantity: Tested; reason: NextTest['reason'] }[] {
  const last = seriesOf(entries, quantity).at(-1);
  if (!last) return [];
  const at = (days: number) => Date.parse(last.time) + days * DAY_MILLIS;
  const dosed = additionsOf(entries)
    // Chlorine is added day by day: only what isn't asks for a test of its own.
    .filter(({ agent, time }) => time > last.time && agent !== 'chlorine')
    .filter(({ agent }) => agent === 'water' || MOVED_BY[quantity].includes(agent))
    .at(-1);
  if (dosed) {
    const millis = Date.parse(dosed.time) + (SHOWS_AFTER_HOURS[quantity] / 24) * DAY_MILLIS;
    return [{ millis, quantity, reason: 'dose' }];
  }
  const rule = ROUTINE_DAYS[quantity];
  const drift = driftPerDay(entries, quantity);
  const days = drift && target ? daysInside(last, target, drift) : Infinity;
  return days < rule
    ? [{ millis: at(Math.max(days, EARLIEST_DAYS)), quantity, reason: 'drift' }]
    : [{ millis: at(rule), quantity, reason: 'rule' }];
}

/** A test within hours of the last one says nothing new about a drift. */
const EARLIEST_DAYS = 0.5;

/** How a quantity moves by itself, per day: its slope between additions that act on it. Null where nothing is known. */
export function driftPerDay(entries: readonly Entry[], quantity: Tested): Slope | null {
  const points = recent(seriesOf(entries, quantity));
  const breaks = additionsOf(entries).filter(({ agent }) => agent === 'water' || MOVED_BY[quantity].includes(agent));
  const start = points[0]?.time ?? '';
  return commonSlope(
    splitSeries(points, breaks).map((stretch) =>
      stretch.map(({ time, value }): [number, number] => [daysBetween(start, time), value]),
    ),
  );
}

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

/** Days until the value leaves its span, by the faster end of what the slope may be. Infinity when it doesn't. */
function daysInside({ value }: TrendPoint, { low, high }: { low: number; high: number }, drift: Slope): number {
  // A slope whose interval holds 0 is no drift.
  if (drift.low <= 0 && drift.high >= 0) return Infinity;
  const fastest = drift.value < 0 ? drift.low : drift.high;
  const room = fastest < 0 ? value - low : high - value;
  return Math.max(0, room) / Math.abs(fastest);
}
