/**
 * How much acid a week the pool takes, learnt from what was poured in. It is told, beside the plan too, and no input of
 * the plan, unlike the chlorine use: that says how long a chlorinator runs and what goes in each day, whereas acid is
 * dosed for the pH that was measured. Acid ahead of the need would take the pH below its span; what was poured in is a
 * habit as much as a need, and would be confirmed by following it; and the rate holds for the alkalinity and the air
 * of those weeks, which the plan's own steps change. When pH will leave its span is told by its readings: `nextTest`.
 */
import { t90 } from '../math/student.ts';
import { additionsOf, type LearntRate } from './chlorine-use.ts';
import type { AdditionEntry, Entry } from './schema.ts';
import { daysBetween } from './time.ts';

/** Older doses tell of another season. */
const LEARN_DAYS = 84;
/** Doses poured on one day are one. */
const ONE_DOSE_DAYS = 0.5;
const FEWEST_DOSES = 3;

/**
 * Moles of strong acid a week. Each dose is taken to have lasted until the next one, so the rate is a ratio of sums,
 * with the variance of a ratio estimator (Cochran, Sampling Techniques, 3rd ed. 1977, section 6.4).
 * @returns null with fewer than three doses, or where a dose is of unknown strength
 */
export function acidUse(entries: readonly Entry[]): LearntRate | null {
  const acids = additionsOf(entries).filter(({ agent }) => agent === 'acid');
  const doses = gatherDoses(acids.filter(({ time }) => daysBetween(time, acids.at(-1)!.time) <= LEARN_DAYS));
  if (doses.length < FEWEST_DOSES || doses.some(({ moles }) => moles === null)) return null;
  const spans = doses.slice(1).map((next, i) => ({
    moles: doses[i]!.moles!,
    weeks: daysBetween(doses[i]!.time, next.time) / 7,
  }));
  const weeks = spans.reduce((sum, span) => sum + span.weeks, 0);
  const value = spans.reduce((sum, span) => sum + span.moles, 0) / weeks;
  const misfit = spans.reduce((sum, span) => sum + (span.moles - value * span.weeks) ** 2, 0);
  const deviation = Math.sqrt((spans.length * misfit) / (spans.length - 1)) / weeks;
  const half = t90(spans.length - 1) * deviation;
  return {
    value,
    low: Math.max(0, value - half),
    high: value + half,
    count: doses.length,
    from: doses[0]!.time,
    to: doses.at(-1)!.time,
  };
}

function gatherDoses(additions: readonly AdditionEntry[]): { time: string; moles: number | null }[] {
  const doses: { time: string; moles: number | null }[] = [];
  for (const { time, acidMoles } of additions) {
    const last = doses.at(-1);
    if (last && daysBetween(last.time, time) < ONE_DOSE_DAYS) {
      last.moles = last.moles === null || acidMoles === null ? null : last.moles + acidMoles;
    } else doses.push({ time, moles: acidMoles });
  }
  return doses;
}
