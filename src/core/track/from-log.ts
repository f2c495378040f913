/** A logbook's entries as the events that the estimate is made from. */
import { reachOf, type Measurement } from '../measurement/measurement.ts';
import type { QuantityId } from '../measurement/quantities.ts';
import { chlorineMadePerDay, fillOf } from '../log/pool-supply.ts';
import { type AdditionEntry, type Entry, fromLogged, type Pool } from '../log/schema.ts';
import { DAY_MILLIS } from '../log/time.ts';
import { MOLAR_MASS } from '../water/constants.ts';
import { REAGENTS, type Change } from '../water/moves/reagents.ts';
import { mmolPerUnit, moveOf, product, PRODUCT_IDS, type ProductId } from '../water/products.ts';
import { convert } from '../water/units.ts';
import { climateRainOf } from './climate-rain.ts';
import type { ChlorineAction, ChlorineHabits } from './fast-chlorine.ts';
import type { PhDose } from './fast-ph.ts';
import { type Addition, SLOW_QUANTITIES, type SlowQuantity, type TrackedPool, type TrackEvent } from './events.ts';
import type { SeenAt } from './follow.ts';
import type { Seen } from './look.ts';

/** A measurement and the entry it stands in. */
export interface LoggedMeasurement {
  readonly entry: string;
  readonly measurement: Measurement;
}

export function measurementsOf(entry: Entry): LoggedMeasurement[] {
  if (entry.kind !== 'reading') return [];
  return entry.values.map((value) => ({ entry: entry.id, measurement: fromLogged(entry, value) }));
}

export interface LogEvents {
  readonly slow: readonly TrackEvent[];
  readonly chlorine: readonly (SeenAt | ChlorineAction)[];
  readonly ph: readonly (SeenAt | PhDose)[];
}

/** Standard normal quantile of 0.95. */
const Z90 = 1.644853627;
/** One standard deviation of a typed volume's logarithm. Common practice, no source: most pools are measured by rule. */
const VOLUME_DOUBT = 0.1;
/** Where no volume was given: L, and one standard deviation of its logarithm. */
const ANY_POOL = { litres: 30_000, doubt: 0.6 } as const;
/** One standard deviation, as a share: what a measuring cup, and what a label leave open. Common practice, no source. */
const DOSE_DOUBT = { measuring: 0.03, pure: 0.02, known: 0.1, guessed: 0.25 } as const;
/**
 * Sold all but pure, and weighed by the sack: food-grade salt is at least 97 % sodium chloride (Codex Standard 150-1985),
 * sodium bicarbonate at least 99 % (its food additive specification).
 */
const PURE: ReadonlySet<ProductId> = new Set(['salt', 'sodium-bicarbonate']);
/** Water let out is read off by the level or the clock. Common practice, no source. */
const EXCHANGE_DOUBT = 0.3;
/** mm of water a pool is deep on the whole, for what rain does to it, where its surface isn't known. */
const DEPTH_MM = 1300;
/** A surface that gives the volume another depth than these is another pool's. */
const MAX_DEPTH_MM = 5000;
const MIN_DEPTH_MM = 200;
const RAIN_DOUBT = 0.5;
/**
 * Share of a method's error variance that it always has; a photo's is learnt. A salt meter errs by its calibration, and
 * repeats to a third of that. Common practice, no source.
 */
const SHARED_VARIANCE = { saltMeter: 0.9, other: 0.4 } as const;
/** Share of the chlorine lost in a day where nothing is known of the pool, and the doubt of its logarithm. */
const CHLORINE_LOSS = { perDay: 0.6, doubt: 0.7 } as const;

/**
 * A volume that was learnt is no surer here than another: the same log says it once more.
 * @param entries whose rain goes before that of the place's climate
 */
export function trackedPool(pool: Pool, entries: readonly Entry[]): TrackedPool {
  const { volumeLitres } = pool;
  const volume = volumeLitres === null ? ANY_POOL : { litres: volumeLitres, doubt: VOLUME_DOUBT };
  const depthMm = depthOf(pool);
  return { ...volume, fill: fillOf(pool), depthMm, climateRain: climateRainOf(pool, entries, depthMm ?? DEPTH_MM) };
}

/** A litre on a square metre is a millimetre. */
function depthOf({ volumeLitres, details }: Pool): number | undefined {
  const surface = details['pool.surfaceM2'];
  if (volumeLitres === null || typeof surface !== 'number') return undefined;
  const depth = volumeLitres / surface;
  return depth >= MIN_DEPTH_MM && depth <= MAX_DEPTH_MM ? depth : undefined;
}

export function chlorineHabits(pool: Pool, litres: number): ChlorineHabits {
  const made = chlorineMadePerDay(pool);
  const madePerDay = made === null ? null : (made * 1000) / litres;
  return { madePerDay, lossPerDay: CHLORINE_LOSS.perDay, lossDoubt: CHLORINE_LOSS.doubt };
}

/** Days since 1970, as all events count them. */
export const dayOfTime = (iso: string) => Date.parse(iso) / DAY_MILLIS;
export const isoOf = (day: number) => new Date(day * DAY_MILLIS).toISOString();

/** @param litres the pool's volume as it is taken for doses of chlorine and acid */
export function eventsFrom(
  entries: readonly Entry[],
  measurements: readonly LoggedMeasurement[],
  pool: TrackedPool,
  litres: number,
): LogEvents {
  const slow: TrackEvent[] = [];
  const chlorine: (SeenAt | ChlorineAction)[] = [];
  const ph: (SeenAt | PhDose)[] = [];
  for (const logged of measurements) {
    const { quantity } = logged.measurement;
    const seen = seenIn(logged);
    if (quantity === 'ph') ph.push(seen);
    else if (quantity === 'free-chlorine') chlorine.push(seen);
    else if (isSlow(quantity)) slow.push({ ...seen, quantity });
  }
  for (const entry of entries) {
    const day = dayOfTime(entry.time);
    if (entry.kind === 'weather' && entry.rainMm) {
      slow.push({
        kind: 'exchanged',
        day,
        share: Math.min(0.5, entry.rainMm / (pool.depthMm ?? DEPTH_MM)),
        doubt: RAIN_DOUBT,
        by: 'rain',
      });
    }
    if (entry.kind !== 'addition') continue;
    if (entry.agent === 'water') slow.push(...exchanged(entry, day, pool.litres));
    else {
      const dose = doseOf(entry);
      if (dose) slow.push({ kind: 'added', day, ...dose });
      if (dose) {
        const doubt = Math.hypot(dose.doubt, dose.product.doubt);
        ph.push({ kind: 'added', day, molesPerLitre: perLitre(dose.moles, litres), doubt });
      }
    }
    if (entry.agent === 'chlorine' || entry.agent === 'chlorine-remover') chlorine.push(chlorineOf(entry, day, litres));
  }
  const inTime = <E extends { readonly day: number }>(events: E[]) => events.sort((a, b) => a.day - b.day);
  return { slow: inTime(slow), chlorine: inTime(chlorine), ph: dosesOfADay(inTime(ph)) };
}

/** Doses with no reading between them are one where they lie within a day: pH hardly drifts meanwhile. */
function dosesOfADay(events: readonly (SeenAt | PhDose)[]): (SeenAt | PhDose)[] {
  const gathered: (SeenAt | PhDose)[] = [];
  let first = -Infinity;
  for (const event of events) {
    const last = gathered.at(-1);
    if (event.kind === 'added' && last?.kind === 'added' && event.day - first < 1) {
      gathered[gathered.length - 1] = bothDoses(last, event);
    } else {
      gathered.push(event);
      first = event.day;
    }
  }
  return gathered;
}

function bothDoses(a: PhDose, b: PhDose): PhDose {
  const names = [...Object.keys(a.molesPerLitre), ...Object.keys(b.molesPerLitre)] as (keyof Change)[];
  const molesPerLitre = Object.fromEntries(
    names.map((name) => [name, (a.molesPerLitre[name] ?? 0) + (b.molesPerLitre[name] ?? 0)]),
  );
  return { kind: 'added', day: b.day, molesPerLitre, doubt: Math.max(a.doubt, b.doubt) };
}

function isSlow(quantity: QuantityId): quantity is SlowQuantity {
  return (SLOW_QUANTITIES as readonly string[]).includes(quantity);
}

/** An interval that reaches the end of a scale bounds the truth on its near side only. */
function seenIn({ entry, measurement }: LoggedMeasurement): SeenAt & Seen {
  const { quantity, value, alternative, method, scale, time } = measurement;
  const { low, high, openAbove, openBelow } = reachOf(measurement);
  const isSaltMeter = method === 'meter' && quantity === 'salt';
  const isAbove = openAbove && !openBelow;
  const isBelow = openBelow && !openAbove;
  // An interval that ends at nothing says nothing of that side.
  const sides = [low > 0 ? value - low : high - value, high - value].map((side) => side / Z90) as [number, number];
  const half = isAbove ? value - low : isBelow ? high - value : (high - low) / 2;
  return {
    kind: 'read',
    day: dayOfTime(time),
    entry,
    quantity,
    value: alternative ? (low + high) / 2 : value,
    // A value known to the dot would stop the filter; no test is.
    deviation: Math.max(half / Z90, 0.02 * Math.max(1, value)),
    ...(Math.min(...sides) > 0.02 * Math.max(1, value) && !alternative && { sides }),
    bound: isAbove ? 'above' : isBelow ? 'below' : null,
    method: scale ? `${method} ${scale.id}` : method,
    sharedVariance: method === 'photo' ? null : SHARED_VARIANCE[isSaltMeter ? 'saltMeter' : 'other'],
  };
}

function exchanged(entry: AdditionEntry, day: number, litres: number): TrackEvent[] {
  const amount = inLitres(entry);
  if (amount === null) return [];
  return [{ kind: 'exchanged', day, share: Math.min(0.95, amount / litres), doubt: EXCHANGE_DOUBT, by: 'fill' }];
}

function inLitres({ amount, unit }: AdditionEntry): number | null {
  switch (unit) {
    case 'mL':
    case 'L':
    case 'fl oz':
    case 'gal':
      return convert('volume', amount, unit, 'L');
    default:
      return null;
  }
}

interface Dose extends Pick<Addition, 'moles' | 'doubt' | 'product'> {
  readonly product: { readonly id: string; readonly doubt: number };
}

const AGENT_PRODUCT: Partial<Record<AdditionEntry['agent'], ProductId>> = {
  base: 'soda-ash',
  bicarbonate: 'sodium-bicarbonate',
  calcium: 'calcium-chloride',
  stabilizer: 'cyanuric-acid',
  salt: 'salt',
  chlorine: 'sodium-hypochlorite',
  acid: 'hydrochloric-acid',
};

/** Moles into the pool, chlorine counted as used up; null where nobody can tell. */
function doseOf(entry: AdditionEntry): Dose | null {
  const named = PRODUCT_IDS.find((id) => id === entry.productId);
  const id = named ?? AGENT_PRODUCT[entry.agent];
  if (id === undefined) return null;
  const moles = molesOf(entry, id);
  if (moles === null) return null;
  const move = moveOf(id);
  if (move === 'thiosulfate') return null;
  const { brings } = REAGENTS[move === 'liquid-chlorine' ? 'sodium-hypochlorite' : move] as { brings: Change };
  const { chlorine = 0, alkalinity = 0, ...rest } = brings;
  const all = { ...rest, alkalinity: alkalinity - chlorine };
  return {
    moles: Object.fromEntries(Object.entries(all).map(([name, perMole]) => [name, perMole * moles])),
    doubt: DOSE_DOUBT.measuring,
    product: { id, doubt: PURE.has(id) ? DOSE_DOUBT.pure : named ? DOSE_DOUBT.known : DOSE_DOUBT.guessed },
  };
}

/** The log's own figure of acid or chlorine first, then the label's usual strength. */
function molesOf(
  { agent, acidMoles, chlorineGrams, amount, unit, strength }: AdditionEntry,
  id: ProductId,
): number | null {
  if (agent === 'acid' && acidMoles !== null) return acidMoles;
  const { brings } = moveOf(id) === 'thiosulfate' ? { brings: {} } : reagentOf(id);
  const perMole = (brings as Change).chlorine ?? 0;
  if (agent === 'chlorine' && chlorineGrams !== null && perMole > 0) return chlorineGrams / MOLAR_MASS.Cl2 / perMole;
  const { form, strengths } = product(id);
  const units = form === 'liquid' ? volumeIn(amount, unit) : massIn(amount, unit);
  return units === null ? null : (mmolPerUnit(id, strength ?? strengths[0]) * units) / 1000;
}

function reagentOf(id: ProductId) {
  const move = moveOf(id);
  return REAGENTS[move === 'liquid-chlorine' || move === 'thiosulfate' ? 'sodium-hypochlorite' : move];
}

function volumeIn(amount: number, unit: AdditionEntry['unit']): number | null {
  return unit === 'mL' || unit === 'L' || unit === 'fl oz' || unit === 'gal'
    ? convert('volume', amount, unit, 'mL')
    : null;
}

function massIn(amount: number, unit: AdditionEntry['unit']): number | null {
  return unit === 'g' || unit === 'kg' || unit === 'oz' || unit === 'lb' ? convert('mass', amount, unit, 'g') : null;
}

function perLitre(moles: Change, litres: number): Change {
  return Object.fromEntries(Object.entries(moles).map(([name, amount]) => [name, amount / litres]));
}

function chlorineOf({ agent, chlorineGrams }: AdditionEntry, day: number, litres: number): ChlorineAction {
  if (agent === 'chlorine-remover' || chlorineGrams === null) return { kind: 'unknown', day };
  return { kind: 'added', day, mgPerLitre: (chlorineGrams * 1000) / litres, doubt: DOSE_DOUBT.known };
}
