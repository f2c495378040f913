/** Seasons into figures: how often the estimate's intervals hold, how wide they and its errors are beside the last strip's. */
import { estimateSlow } from '../../../src/core/track/estimate-slow.ts';
import { eventsOf, poolOf } from './events.ts';
import { simulateSeason, type Quantity, type SeasonSettings } from './simulate.ts';
import { STRIP } from './strip.ts';

export interface Row {
  readonly quantity: string;
  readonly count: number;
  /** Share of intervals that hold the truth. */
  readonly held: number;
  /** Mean width over the mean width of the last strip's. */
  readonly width: number;
  /** Mean error over the mean error of the last strip's. */
  readonly error: number;
}

const FIRST_READINGS = 5;

export function summarise(seasons: number, from: number, settings: Omit<SeasonSettings, 'seed'>): Row[] {
  const sums = new Map(
    STRIP.map(({ quantity }) => [quantity, { n: 0, held: 0, wide: 0, stripWide: 0, off: 0, stripOff: 0 }]),
  );
  let litresTold = 0;
  let litresHeld = 0;
  let litresWide = 0;
  let litresNear = 0;
  const jumps = { there: 0, told: 0, soon: 0, false: 0 };
  for (let seed = from; seed < from + seasons; seed++) {
    const season = simulateSeason({ seed, ...settings });
    const events = eventsOf(season);
    const pool = poolOf(season);
    const dips = season.days.filter(({ strip }) => strip);
    dips.slice(FIRST_READINGS - 1).forEach(({ day, strip, truth }, k) => {
      if (k % 9 !== 0) return;
      const estimate = estimateSlow(pool, events, day)!;
      for (const { quantity, value, low, high } of strip!) {
        const { value: mean, low: l, high: h } = estimate.quantities.get(quantity)!;
        const sum = sums.get(quantity)!;
        sum.n += 1;
        sum.held += truth[quantity] >= l && truth[quantity] <= h ? 1 : 0;
        sum.wide += h - l;
        sum.stripWide += high - low;
        sum.off += Math.abs(mean - truth[quantity]);
        sum.stripOff += Math.abs(value - truth[quantity]);
      }
    });
    const last = estimateSlow(pool, events, 1000)!;
    if (last.litres) {
      litresTold += 1;
      litresHeld += season.trueLitres >= last.litres.low && season.trueLitres <= last.litres.high ? 1 : 0;
      litresNear += Math.abs(last.litres.value / season.trueLitres - 1) <= 0.05 ? 1 : 0;
      litresWide += (last.litres.high - last.litres.low) / 2 / last.litres.value;
    }
    count(jumps, season, last.oddities, (day) => estimateSlow(pool, events, day)!.oddities);
  }
  console.log(
    `  litres told ${litresTold} of ${seasons}, held ${litresHeld}, within 5 % of the truth ${litresNear}, half width ${((100 * litresWide) / litresTold).toFixed(1)} %; jumps told ${jumps.told} of ${jumps.there}, within two readings ${jumps.soon}, false ${(jumps.false / seasons).toFixed(2)} a season`,
  );
  return [...sums].map(([quantity, { n, held, wide, stripWide, off, stripOff }]) => ({
    quantity,
    count: n,
    held: held / n,
    width: wide / stripWide,
    error: off / stripOff,
  }));
}

type Season = ReturnType<typeof simulateSeason>;
type Oddities = NonNullable<ReturnType<typeof estimateSlow>>['oddities'];

/**
 * Several changes between the same two dips are one; what they leave counts where it is a block or more.
 * @param oddities at the season's end
 * @param oddAt those that are told on a day, by what was known then
 */
function count(
  jumps: { there: number; told: number; soon: number; false: number },
  season: Season,
  oddities: Oddities,
  oddAt: (day: number) => Oddities,
): void {
  const dips = season.days.filter(({ strip }) => strip).map(({ day }) => day);
  const net = new Map<string, { quantity: Quantity; next: number; steps: number }>();
  for (const { day, unexplained } of season.days) {
    // A change on a day of a dip comes before it, an owner's forgotten dose after it.
    const next = dips.find((dip) => dip >= day);
    if (next === undefined || dips.filter((dip) => dip >= next).length < 2) continue;
    for (const { quantity, steps } of unexplained) {
      const key = `${quantity} ${next}`;
      net.set(key, { quantity, next, steps: steps + (net.get(key)?.steps ?? 0) });
    }
  }
  const used = new Set<number>();
  for (const { quantity, next, steps } of net.values()) {
    if (Math.abs(steps) < 1) continue;
    jumps.there += 1;
    const near = dips.slice(Math.max(0, dips.indexOf(next) - 1), dips.indexOf(next) + 2);
    const isIt = (oddity: Oddities[number]) =>
      oddity.quantity === quantity && near.includes(oddity.kind === 'jump' ? oddity.before : oddity.day);
    const at = oddities.findIndex((oddity, i) => !used.has(i) && isIt(oddity));
    // Of the two readings that follow it, both are in.
    jumps.soon += oddAt(dips[dips.indexOf(next) + 1]!).some(isIt) ? 1 : 0;
    if (at >= 0) {
      jumps.told += 1;
      used.add(at);
    }
  }
  // What was there but smaller than a block isn't a false alarm.
  const there = [...net.values()];
  jumps.false += oddities.filter(
    (oddity, i) =>
      !used.has(i) &&
      oddity.kind !== 'unconfirmed' &&
      !there.some(
        ({ quantity, next }) =>
          quantity === oddity.quantity &&
          Math.abs(dips.indexOf(next) - dips.indexOf(oddity.kind === 'jump' ? oddity.before : oddity.day)) <= 1,
      ),
  ).length;
}
