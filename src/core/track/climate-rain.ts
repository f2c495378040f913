/** The rain of the place's climate, for months of which the log says nothing of rain. */
import type { Entry, Pool } from '../log/schema.ts';
import { DAY_MILLIS } from '../log/time.ts';
import { climateOf, type Month, MONTH_DAYS, MONTHS, runsOverMm, waterByAir } from '../pool/climate.ts';
import type { ClimateRain, TrackedPool } from './events.ts';

/** Months since the year 0, in UTC: whose month an hour belongs to doesn't matter here. */
function monthOf(millis: number): number {
  const date = new Date(millis);
  return 12 * date.getUTCFullYear() + date.getUTCMonth();
}

const startOf = (month: number) => Date.UTC(Math.floor(month / 12), month % 12) / DAY_MILLIS;

/**
 * @param entries whose rain goes before that of the climate
 * @param depthMm of the water on the whole
 * @returns undefined where it never runs over, or a cover decides
 */
export function climateRainOf(
  { details }: Pool,
  entries: readonly Entry[],
  depthMm: number,
): TrackedPool['climateRain'] {
  if (details['pool.exposure'] === 'covered' || details['pool.cover'] === 'mostly') return undefined;
  const climate = climateOf(details);
  const perDay = MONTHS.map((month): ClimateRain => {
    const runsOver = runsOverMm(climate[month] ?? {}) / depthMm;
    return { runsOver, falls: runsOver > 0 ? climate[month]!.rainMm! / MONTH_DAYS / depthMm : 0 };
  });
  if (perDay.every(({ runsOver }) => runsOver === 0)) return undefined;
  const told = new Set(
    entries.flatMap((entry) =>
      entry.kind === 'weather' && entry.rainMm !== null ? [monthOf(Date.parse(entry.time))] : [],
    ),
  );
  return (from, to) => {
    let [runsOver, falls] = [0, 0];
    for (let day = from, month = monthOf(from * DAY_MILLIS); day < to; month++) {
      const end = Math.min(to, startOf(month + 1));
      if (!told.has(month)) {
        runsOver += perDay[month % 12]!.runsOver * (end - day);
        falls += perDay[month % 12]!.falls * (end - day);
      }
      day = end;
    }
    return { runsOver, falls };
  };
}

/** °C of the water by the air of the place in this month; null where that isn't known. */
export function waterByMonth({ details }: Pool, at: string): number | null {
  const month: Month = MONTHS[new Date(at).getUTCMonth()]!;
  const lying = { heater: details['pool.heater'], exposure: details['pool.exposure'] };
  return waterByAir(climateOf(details), month, lying)?.value ?? null;
}
