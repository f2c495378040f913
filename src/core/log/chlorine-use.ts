/** What the pool itself uses up, learnt from its log. */
import { commonSlope } from '../math/slope.ts';
import { chlorineMadePerDay } from './pool-supply.ts';
import type { AdditionEntry, Entry, Pool } from './schema.ts';
import { daysBetween } from './time.ts';
import { seriesOf, type TrendPoint } from './trends.ts';

export interface LearntRate {
  readonly value: number;
  /** 90 % interval, never below 0. */
  readonly low: number;
  readonly high: number;
  /** How many readings or additions it rests on. */
  readonly count: number;
  readonly from: string;
  readonly to: string;
}

/** An upper end so many times the value says next to nothing ("0.1 (0 to 17)"). */
const MAX_UPPER_END = 3;

/** The rate where it says enough to be told and to go by. */
export function worthTelling(rate: LearntRate | null): LearntRate | null {
  return rate && rate.high <= MAX_UPPER_END * rate.value ? rate : null;
}

/** Older readings tell of another season. */
const LEARN_DAYS = 56;

/** Readings further apart than this say little about the days between them: something may have been forgotten. */
const LONGEST_GAP_DAYS = 10;

/**
 * mg/L of free chlorine used up in a day: all that was added, by hand and by the chlorinator, less what is still
 * there, as a slope over time. A stretch ends where chlorine of unknown amount, chlorine remover or water went in, where
 * a reading was off its scale or 0 (what isn't there can't be used up), and at a gap.
 * @returns null when the pool's volume is unknown or the log can't support a number
 */
export function chlorineUse(entries: readonly Entry[], pool: Pool): LearntRate | null {
  const { volumeLitres } = pool;
  if (volumeLitres === null) return null;
  const points = recent(seriesOf(entries, 'free-chlorine'));
  const additions = additionsOf(entries);
  const start = points[0]?.time ?? '';
  const perDay = ((chlorineMadePerDay(pool) ?? 0) * 1000) / volumeLitres;
  const stretches = splitSeries(points, additions.filter(breaksChlorine)).map((stretch) =>
    stretch.map(({ time, value }): [number, number] => {
      const days = daysBetween(start, time);
      // What went in before the stretch lifts all of its points alike.
      const added = additions
        .filter((addition) => addition.time < time)
        .reduce((grams, addition) => grams + (addition.chlorineGrams ?? 0), 0);
      return [days, (added * 1000) / volumeLitres + perDay * days - value];
    }),
  );
  return rateOf(stretches, points);
}

function breaksChlorine({ agent, chlorineGrams }: AdditionEntry): boolean {
  return agent === 'water' || agent === 'chlorine-remover' || (agent === 'chlorine' && chlorineGrams === null);
}

function rateOf(stretches: (readonly [number, number])[][], points: readonly TrendPoint[]): LearntRate | null {
  const slope = commonSlope(stretches);
  if (!slope || slope.high <= 0) return null;
  return {
    value: Math.max(0, slope.value),
    low: Math.max(0, slope.low),
    high: slope.high,
    count: stretches.filter((stretch) => stretch.length > 1).flat().length,
    from: points[0]!.time,
    to: points.at(-1)!.time,
  };
}

/** The last weeks of a series. */
function recent(points: readonly TrendPoint[]): TrendPoint[] {
  const last = points.at(-1);
  return points.filter(({ time }) => daysBetween(time, last!.time) <= LEARN_DAYS);
}

export function additionsOf(entries: readonly Entry[]): AdditionEntry[] {
  return entries.filter((entry) => entry.kind === 'addition').sort((a, b) => (a.time < b.time ? -1 : 1));
}

/** Stretches over which only time and what is known acted. A reading off the scale or of 0 belongs to none. */
function splitSeries(points: readonly TrendPoint[], breaks: readonly AdditionEntry[]): TrendPoint[][] {
  const stretches: TrendPoint[][] = [];
  let current: TrendPoint[] = [];
  const end = () => {
    if (current.length > 0) stretches.push(current);
    current = [];
  };
  for (const point of points) {
    const last = current.at(-1);
    if (point.offScale !== null || point.value === 0) {
      end();
      continue;
    }
    const broken = last && breaks.some(({ time }) => time >= last.time && time < point.time);
    if (broken || (last && daysBetween(last.time, point.time) > LONGEST_GAP_DAYS)) end();
    current.push(point);
  }
  end();
  return stretches;
}
