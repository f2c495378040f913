/** Whether anything speaks against swimming now, by what the logbook holds: as far as its readings are fresh enough. */
import { type AdditionEntry, countingValues, type Entry, fromLogged, type ReadingEntry } from '../log/schema.ts';
import { DAY_MILLIS } from '../log/time.ts';
import type { QuantityId } from '../measurement/quantities.ts';
import { ROUTINE_DAYS } from '../pool/test-times.ts';
import { parsePlanInput, poolSchema } from '../pool/schema.ts';
import type { Verdict } from '../water/plan/types.ts';
import { swimVerdict } from '../water/plan/verdict.ts';

/** Readings that a day changes: older, they say nothing about now. Common practice, no source. */
const OF_TODAY: ReadonlySet<QuantityId> = new Set(['free-chlorine', 'total-chlorine', 'ph', 'temperature']);
const TODAY_DAYS = 1;
/** Without these two nothing can be said. */
const NEEDED = ['free-chlorine', 'ph'] as const;

/** ISO 8601, and what the clock on the wall showed beyond UTC. */
export type Moment = Pick<Entry, 'time' | 'zoneMinutes'>;

export type SwimToday =
  /** The log has no reading of real water. */
  | { readonly state: 'none' }
  /** Chlorine or pH was last measured too long ago; null: never. */
  | { readonly state: 'old'; readonly quantity: (typeof NEEDED)[number]; readonly last: Moment | null }
  | {
      readonly state: 'judged';
      readonly verdict: Verdict;
      /** When the older one of chlorine and pH was measured. */
      readonly at: Moment;
      /** What went into the water after that; salt from the chlorinator isn't written down. */
      readonly since: readonly AdditionEntry[];
    };

/** A home pool of which nothing was told; its size changes no verdict. */
const UNTOLD = {
  volumeLitres: 30_000,
  surface: 'vinyl',
  heater: 'none',
  chlorination: 'chlorinator',
  stabilised: true,
};

/**
 * @param entries of the pool, of the last two months at least, in the order of time
 * @param now ISO 8601
 */
export function swimToday(entries: readonly Entry[], now: string): SwimToday {
  const readings = entries.filter(isOfRealWater);
  if (readings.length === 0) return { state: 'none' };
  const newest = new Map(
    readings.flatMap((reading) =>
      countingValues(reading).map((value) => [value.quantity, { reading, value }] as const),
    ),
  );
  const ageDays = (time: string) => (Date.parse(now) - Date.parse(time)) / DAY_MILLIS;
  for (const quantity of NEEDED) {
    const last = newest.get(quantity)?.reading;
    if (!last || ageDays(last.time) > TODAY_DAYS) return { state: 'old', quantity, last: last ? momentOf(last) : null };
  }
  const fresh = [...newest].filter(
    ([quantity, { reading }]) =>
      ageDays(reading.time) <= (OF_TODAY.has(quantity) ? TODAY_DAYS : ROUTINE_DAYS[quantity]),
  );
  const given = fresh.map(([quantity, { reading, value }]) => [quantity, fromLogged(reading, value)]);
  const parsed = parsePlanInput({ pool: poolIn(entries), readings: Object.fromEntries(given) });
  // What no pool holds can't be judged; the plan says what is wrong with it.
  if (!parsed.ok) return { state: 'none' };
  const [chlorine, ph] = NEEDED.map((quantity) => momentOf(newest.get(quantity)!.reading)) as [Moment, Moment];
  const at = chlorine.time < ph.time ? chlorine : ph;
  const since = entries.filter((entry) => entry.kind === 'addition').filter((entry) => entry.time > at.time);
  return { state: 'judged', verdict: swimVerdict(parsed.input), at, since };
}

const momentOf = ({ time, zoneMinutes }: Moment): Moment => ({ time, zoneMinutes });

/** As the newest plan has it. */
function poolIn(entries: readonly Entry[]): unknown {
  const plan = entries.filter((entry) => entry.kind === 'plan').at(-1);
  const parsed = poolSchema.safeParse(plan?.rounds.at(-1)?.input['pool']);
  return parsed.success ? parsed.data : UNTOLD;
}

/** What was read with an invented scale says nothing about any water. */
function isOfRealWater(entry: Entry): entry is ReadingEntry {
  return entry.kind === 'reading' && entry.scale?.origin !== 'practice';
}
