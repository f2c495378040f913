/** The rain of the place's climate, for months of which the log says nothing of rain. */
import type { Entry, Pool } from '../log/schema.ts';
import { DAY_MILLIS } from '../log/time.ts';
import { climateOf, type Month, MONTHS, runsOverMm, waterByAir } from '../pool/climate.ts';

/** Months since the year 0, in UTC: whose month an hour belongs to doesn't matter here. */
function monthOf(millis: number): number {
  const date = new Date(millis);
  return 12 * date.getUTCFullYear() + date.getUTCMonth();
}

const startOf = (month: number) => Date.UTC(Math.floor(month / 12), month % 12) / DAY_MILLIS;

/**
 * How much of the pool's water runs over between two days, as a share of what is there at each moment, summed.
 * @param depthMm of the water on the whole
 * @returns undefined where it never runs over, or a cover decides
 */
export function overflowOf(
  { details }: Pool,
  entries: readonly Entry[],
  depthMm: number,
): ((from: number, to: number) => number) | undefined {
  if (details['pool.exposure'] === 'covered' || details['pool.cover'] === 'mostly') return undefined;
  const climate = climateOf(details);
  const perDay = MONTHS.map((month) => runsOverMm(climate[month] ?? {}) / depthMm);
  if (perDay.every((share) => share === 0)) return undefined;
  const told = new Set(
    entries.flatMap((entry) =>
      entry.kind === 'weather' && entry.rainMm !== null ? [monthOf(Date.parse(entry.time))] : [],
    ),
  );
  return (from, to) => {
    let sum = 0;
    for (let day = from, month = monthOf(from * DAY_MILLIS); day < to; month++) {
      const end = Math.min(to, startOf(month + 1));
      if (!told.has(month)) sum += perDay[month % 12]! * (end - day);
      day = end;
    }
    return sum;
  };
}

/** °C of the water by the air of the place in this month; null where that isn't known. */
export function waterByMonth({ details }: Pool, at: string): number | null {
  const month: Month = MONTHS[new Date(at).getUTCMonth()]!;
  const lying = { heater: details['pool.heater'], exposure: details['pool.exposure'] };
  return waterByAir(climateOf(details), month, lying)?.value ?? null;
}
