/** When to test again: by rule, or sooner where the log says that a reading will have drifted out of its span. */
import { commonSlope, type Slope } from '../math/slope.ts';
import type { PadQuantity } from '../measurement/quantities.ts';
import { additionsOf, recent, splitSeries } from './chlorine-use.ts';
import type { Agent, Entry } from './schema.ts';
import { DAY_MILLIS, daysBetween } from './time.ts';
import { parametersOf, seriesOf, type TrendPoint } from './trends.ts';

/** Days between tests of a home pool in use. Common practice, no source; a public pool is tested many times a day. */
export const RULE_DAYS: Readonly<Record<PadQuantity, number>> = {
  'free-chlorine': 3,
  'total-chlorine': 7,
  ph: 3,
  'total-alkalinity': 14,
  'total-hardness': 30,
  'cyanuric-acid': 30,
  salt: 30,
};

export interface NextTest {
  readonly time: string;
  readonly parameter: PadQuantity;
  readonly reason: 'rule' | 'drift';
  readonly overdue: boolean;
}

type TargetOf = (parameter: PadQuantity) => { readonly low: number; readonly high: number } | null;

/** @returns the earliest need among all parameters of the log; null for a log without readings */
export function nextTest(entries: readonly Entry[], targetOf: TargetOf, now: string): NextTest | null {
  const due = parametersOf(entries).flatMap((parameter) => dueOf(entries, parameter, targetOf(parameter)));
  const first = due.sort((a, b) => a.millis - b.millis)[0];
  if (!first) return null;
  const { millis, parameter, reason } = first;
  return { time: new Date(millis).toISOString(), parameter, reason, overdue: millis <= Date.parse(now) };
}

function dueOf(
  entries: readonly Entry[],
  parameter: PadQuantity,
  target: { readonly low: number; readonly high: number } | null,
): { millis: number; parameter: PadQuantity; reason: NextTest['reason'] }[] {
  const last = seriesOf(entries, parameter).at(-1);
  if (!last) return [];
  const at = (days: number) => Date.parse(last.time) + days * DAY_MILLIS;
  const rule = RULE_DAYS[parameter];
  const drift = driftPerDay(entries, parameter);
  const days = drift && target ? daysInside(last, target, drift) : Infinity;
  return days < rule
    ? [{ millis: at(Math.max(days, EARLIEST_DAYS)), parameter, reason: 'drift' }]
    : [{ millis: at(rule), parameter, reason: 'rule' }];
}

/** A test within hours of the last one says nothing new about a drift. */
const EARLIEST_DAYS = 0.5;

/** How a parameter moves by itself, per day: its slope between additions that act on it. Null where nothing is known. */
export function driftPerDay(entries: readonly Entry[], parameter: PadQuantity): Slope | null {
  const points = recent(seriesOf(entries, parameter));
  const breaks = additionsOf(entries).filter(({ agent }) => agent === 'water' || MOVED_BY[parameter].includes(agent));
  const start = points[0]?.time ?? '';
  return commonSlope(
    splitSeries(points, breaks).map((stretch) =>
      stretch.map(({ time, value }): [number, number] => [daysBetween(start, time), value]),
    ),
  );
}

const CHLORINE_MOVERS: readonly Agent[] = ['chlorine', 'chlorine-remover', 'other'];
const MOVED_BY: Readonly<Record<PadQuantity, readonly Agent[]>> = {
  'free-chlorine': CHLORINE_MOVERS,
  'total-chlorine': CHLORINE_MOVERS,
  ph: ['acid', 'base', 'bicarbonate', 'chlorine', 'stabilizer', 'other'],
  'total-alkalinity': ['acid', 'base', 'bicarbonate', 'other'],
  'total-hardness': ['calcium', 'other'],
  'cyanuric-acid': ['stabilizer', 'chlorine', 'other'],
  salt: ['salt', 'other'],
};

/** Days until the value leaves its span, by the faster end of what the slope may be. Infinity when it doesn't. */
function daysInside({ value }: TrendPoint, { low, high }: { low: number; high: number }, drift: Slope): number {
  // A slope that may as well be none is no drift.
  if (drift.low <= 0 && drift.high >= 0) return Infinity;
  const fastest = drift.value < 0 ? drift.low : drift.high;
  const room = fastest < 0 ? value - low : high - value;
  return Math.max(0, room) / Math.abs(fastest);
}
