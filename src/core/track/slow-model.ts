/**
 * Alkalinity, hardness, stabilizer, salt and borate as a linear state with known inputs: what is in the water, how fast
 * each drifts by itself, the pool's true volume, and what each way of measuring always gets wrong. The volume enters as
 * its logarithm, linear around its present estimate (an extended Kalman filter in this one number).
 */
import { MONTH_DAYS } from '../pool/climate.ts';
import { MOLAR_MASS } from '../water/constants.ts';
import type { Change } from '../water/moves/reagents.ts';
import { ALKALINITY_PER_MMOL, HARDNESS_PER_MMOL } from '../water/water.ts';
import type { Addition, Exchange, SlowQuantity, TrackEvent } from './events.ts';
import { Filter } from './filter.ts';
import { look } from './look.ts';
import { DRIFT_WANDER, fillOf, HABITS, LEAVES_PER_DAY, LEVEL, type Content, type SlowState } from './slow-state.ts';

/**
 * What falls in a month against its mean, one standard deviation as a share: all of it more or less runs over. Common
 * practice, no source.
 */
const MONTHLY_RAIN_DOUBT = 0.5;
const NO_RAIN = { runsOver: 0, falls: 0 } as const;

/** What of a dose counts for a content, and mg of it (as it is told) in one mole (alkalinity: one equivalent). */
const BROUGHT_BY: Partial<Record<Content, { readonly name: keyof Change; readonly mgPerMole: number }>> = {
  'total-alkalinity': { name: 'alkalinity', mgPerMole: ALKALINITY_PER_MMOL * 1000 },
  'calcium-hardness': { name: 'calcium', mgPerMole: HARDNESS_PER_MMOL * 1000 },
  'cyanuric-acid': { name: 'cyanurate', mgPerMole: MOLAR_MASS.cyanuricAcid * 1000 },
  salt: { name: 'salt', mgPerMole: MOLAR_MASS.NaCl * 1000 },
  boron: { name: 'boron', mgPerMole: MOLAR_MASS.B * 1000 },
};

/** Where a straight line is to be broken: a change that nothing in the log explains. */
export interface Jump {
  readonly day: number;
  readonly quantity: SlowQuantity;
  /** mg/L; how large it may have been, one standard deviation. */
  readonly size: number;
}

/** What is assumed in one run over the events. */
export interface Assumptions {
  /** Share of a photo's error variance that the scale always has. */
  readonly sharedVariance: number;
  readonly jumps: readonly Jump[];
  /** Observations, by their place among the events, that say little: their error counts this many times. */
  readonly doubted: ReadonlyMap<number, number>;
  /**
   * What each reading measures, by all readings, by its place among the events. A reading is laid straight there: laid
   * straight at each moment's own guess, whose noise is the readings', a method's bias would seem known from that noise.
   */
  readonly near?: ReadonlyMap<number, number>;
  /** Marks the state at the ends of every step as well: around additions and jumps, and at the last moment. */
  readonly marksAll?: true;
}

/**
 * Runs over all events.
 * @param until the day for which the state is wanted, at or after the last event
 * @param isKept the filter's steps are wanted for a smoother
 */
export function runSlow(state: SlowState, until: number, assumptions: Assumptions, isKept = false): Filter {
  const { events, contents } = state;
  const filter = new Filter(state.start, isKept ? contents.map((_, place) => place) : null);
  const { marksAll = false } = assumptions;
  let day = events[0]?.day ?? until;
  let marked = -Infinity;
  let jumps = [...assumptions.jumps].sort((a, b) => a.day - b.day);
  events.forEach((event, i) => {
    if (event.day - day > (isSlow(event) && !marksAll ? SLOW_ENOUGH_DAYS : 0)) {
      pass(filter, state, day, event.day);
      day = event.day;
    }
    if (event.kind !== 'read') {
      if (marksAll) filter.mark(event.day);
      if (event.kind === 'added') put(filter, state, event);
      else exchange(filter, state, event);
      if (marksAll) filter.mark(event.day);
      return;
    }
    if (marked !== event.day) {
      filter.mark(event.day);
      marked = event.day;
      for (const jump of jumps) if (jump.day <= event.day) leap(filter, state, jump);
      jumps = jumps.filter((jump) => jump.day > event.day);
      if (marksAll) filter.mark(event.day);
    }
    look(filter, state.rows.get(event.quantity)!, state.methodOf[i]!, event, {
      level: state.level,
      sharedVariance: assumptions.sharedVariance,
      doubted: assumptions.doubted.get(i) ?? 1,
      id: i,
      near: assumptions.near?.get(i),
    });
  });
  if (until > day) pass(filter, state, day, until);
  if (marksAll) filter.mark(until);
  return filter;
}

/**
 * Between readings a dose may count from so many days before: of what it brings, half a per cent leaves in that time.
 */
const SLOW_ENOUGH_DAYS = 3;

/** Rain isn't: it evaporates again within days. */
const isSlow = (event: TrackEvent) => event.kind === 'added' || (event.kind === 'exchanged' && event.by === 'fill');

/** Time alone: what leaves with the water, what drifts, what can't be foreseen. */
export function pass(filter: Filter, { contents, drift, level, pool }: SlowState, from: number, to: number): void {
  const days = to - from;
  const { runsOver, falls } = pool.climateRain?.(from, to) ?? NO_RAIN;
  const leaves = LEAVES_PER_DAY + runsOver / days;
  const stays = Math.exp(-leaves * days);
  const through = (1 - stays) / leaves;
  const swings = Math.exp(-days / LEVEL.days);
  filter.move(level, [level, swings]);
  filter.disturb(level, LEVEL.swing ** 2 * (1 - swings ** 2));
  contents.forEach((content, place) => {
    filter.move(place, [place, stays, drift + place, through]);
    const { wander, drift: own } = HABITS[content];
    filter.disturb(drift + place, (DRIFT_WANDER * own[1]) ** 2 * days);
    const there = filter.state.mean[place]!;
    const byRain = ((MONTHLY_RAIN_DOUBT * falls * there) ** 2 * MONTH_DAYS) / days;
    filter.disturb(place, (wander[0] ** 2 + (wander[1] * there) ** 2) * days + byRain);
  });
}

function put(filter: Filter, state: SlowState, { moles, doubt, product }: Addition): void {
  const { mean } = filter.state;
  const volume = mean[state.volume]!;
  const strong = product && state.strengths.get(product.id)!.place;
  const strength = strong === undefined ? 0 : mean[strong]!;
  const perLitre = Math.exp(strength - volume) / state.pool.litres;
  state.contents.forEach((content, place) => {
    const brought = BROUGHT_BY[content];
    const amount = brought && (moles[brought.name] ?? 0);
    if (!amount) return;
    const rise = brought.mgPerMole * amount * perLitre;
    const row = [place, 1, state.volume, -rise];
    filter.move(place, strong === undefined ? row : [...row, strong, rise]);
    filter.shift(place, rise * (1 + volume - strength));
    filter.disturb(place, (doubt * rise) ** 2);
  });
}

function exchange(filter: Filter, state: SlowState, { share, doubt, by }: Exchange): void {
  if (by === 'rain') rain(filter, state, share, doubt);
  else replace(filter, state, share, doubt);
}

/** Rain stands in the pool, and what evaporates later need not be topped up; only what runs over takes anything along. */
function rain(filter: Filter, { contents, level }: SlowState, share: number, doubt: number): void {
  const over = Math.max(0, share - filter.state.mean[level]! - LEVEL.freeboard);
  filter.shift(level, over - share);
  filter.disturb(level, (doubt * (share - over)) ** 2);
  if (over === 0) return;
  contents.forEach((_, place) => {
    filter.move(place, [place, 1 - over]);
    filter.disturb(place, (doubt * over * filter.state.mean[place]!) ** 2);
  });
}

/** Let out, and filled up from the tap. */
function replace(filter: Filter, { contents, pool }: SlowState, share: number, doubt: number): void {
  contents.forEach((content, place) => {
    const before = filter.state.mean[place]!;
    const [mean, deviation] = fillOf(pool, content);
    filter.move(place, [place, 1 - share]);
    filter.shift(place, share * mean);
    filter.disturb(place, (doubt * share * (before - mean)) ** 2 + (share * deviation) ** 2);
  });
}

function leap(filter: Filter, { places }: SlowState, { quantity, size }: Jump): void {
  for (const place of places.get(quantity)!) filter.disturb(place, size ** 2);
}
