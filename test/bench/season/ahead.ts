/** How often the estimate holds 30 days after the last reading, where the log tells no rain and the climate does. */
import { MONTH_DAYS, runsOverMm } from '../../../src/core/pool/climate.ts';
import { estimateSlow } from '../../../src/core/track/estimate-slow.ts';
import { eventsOf, poolOf } from './events.ts';
import { simulateSeason, type SeasonSettings } from './simulate.ts';
import { STRIP } from './strip.ts';

const DAYS_AHEAD = 30;
/** In the middle of the season; a pool 1.2 m deep in air of 25 °C. */
const LAST_DAYS = [70, 95, 120];
const DEPTH_MM = 1200;

export interface AheadRow {
  readonly quantity: string;
  readonly count: number;
  readonly held: number;
}

export function holdsAhead(
  seasons: number,
  from: number,
  monthlyRain: number,
  settings: Omit<SeasonSettings, 'seed'>,
): AheadRow[] {
  const sums = new Map(STRIP.map(({ quantity }) => [quantity, { count: 0, held: 0 }]));
  const [runsOver, falls] = [runsOverMm({ rainMm: monthlyRain }) / DEPTH_MM, monthlyRain / MONTH_DAYS / DEPTH_MM];
  for (let seed = from; seed < from + seasons; seed++) {
    const season = simulateSeason({ seed, monthlyRain, ...settings });
    const climateRain = (a: number, b: number) =>
      runsOver > 0 ? { runsOver: runsOver * (b - a), falls: falls * (b - a) } : { runsOver: 0, falls: 0 };
    const pool = { ...poolOf(season), climateRain };
    const events = eventsOf(season).filter((event) => !(event.kind === 'exchanged' && event.by === 'rain'));
    for (const last of LAST_DAYS) {
      const at = last + DAYS_AHEAD;
      // What is dosed meanwhile is written down; nothing is read.
      const known = events.filter(({ kind, day }) => day <= last || (kind !== 'read' && day < at));
      const { quantities } = estimateSlow(pool, known, at)!;
      const { truth } = season.days[at]!;
      for (const [quantity, sum] of sums) {
        const { low, high } = quantities.get(quantity)!;
        sum.count += 1;
        sum.held += truth[quantity] >= low && truth[quantity] <= high ? 1 : 0;
      }
    }
  }
  return [...sums].map(([quantity, { count, held }]) => ({ quantity, count, held: held / count }));
}
