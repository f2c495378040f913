/**
 * Alkalinity, hardness, stabilizer, salt and borate as a linear state with known inputs: what is in the water, how fast
 * each drifts by itself, the pool's true volume, and what each way of measuring always gets wrong. The volume enters as
 * its logarithm, linear around its present estimate (an extended Kalman filter in this one number).
 */
import { MOLAR_MASS } from '../water/constants.ts';
import { ALKALINITY_PER_MMOL, HARDNESS_PER_MMOL } from '../water/water.ts';
import type { Addition, Exchange, SlowQuantity, TrackedPool, TrackEvent } from './events.ts';
import { Filter, gaussian, type Row } from './filter.ts';
import { look, methodKey, methodsOf, type Method } from './look.ts';

/** What the state holds of the water; a total hardness is calcium and magnesium together. */
export const CONTENTS = [
  'total-alkalinity',
  'calcium-hardness',
  'magnesium-hardness',
  'cyanuric-acid',
  'salt',
  'boron',
] as const;
type Content = (typeof CONTENTS)[number];

interface Habit {
  /** Before anything was read: mean and standard deviation, mg/L. */
  readonly start: readonly [number, number];
  /** A day's change by itself beyond what leaves with the water: mean and standard deviation, mg/L. */
  readonly drift: readonly [number, number];
  /** What a day adds at random: one standard deviation, mg/L and share of what is there. */
  readonly wander: readonly [number, number];
  /** In usual tap water: mean and standard deviation, mg/L. */
  readonly fill: readonly [number, number];
}

/**
 * Common practice, no source, but for the fill: pools as they are met, an open pool in summer evaporating about 5 mm of
 * 1.3 m a day, topped up from the tap. Wide on purpose: a few readings take their place.
 */
const HABITS: Record<Content, Habit> = {
  'total-alkalinity': { start: [100, 60], drift: [0.2, 0.7], wander: [1, 0.01], fill: [120, 60] },
  'calcium-hardness': { start: [220, 150], drift: [0.5, 0.9], wander: [1, 0.01], fill: [120, 80] },
  'magnesium-hardness': { start: [40, 40], drift: [0.1, 0.2], wander: [0.2, 0.006], fill: [30, 25] },
  'cyanuric-acid': { start: [40, 40], drift: [0, 0.1], wander: [0.1, 0.005], fill: [0, 0] },
  salt: { start: [2500, 1500], drift: [0, 3], wander: [3, 0.003], fill: [60, 50] },
  boron: { start: [0, 20], drift: [0, 0.01], wander: [0.02, 0.005], fill: [0, 0] },
};

/** Share of the water that a day takes by splash, backwash and leaks: mean. Common practice, no source. */
const LEAVES_PER_DAY = 0.0015;

/** mg of a content (as it is told) in one mole (alkalinity: one equivalent). */
const MG_PER_MOLE: Record<Exclude<Content, 'magnesium-hardness'>, number> = {
  'total-alkalinity': ALKALINITY_PER_MMOL * 1000,
  'calcium-hardness': HARDNESS_PER_MMOL * 1000,
  'cyanuric-acid': MOLAR_MASS.cyanuricAcid * 1000,
  salt: MOLAR_MASS.NaCl * 1000,
  boron: MOLAR_MASS.B * 1000,
};
const MOLES_OF = {
  'total-alkalinity': 'alkalinity',
  'calcium-hardness': 'calcium',
  'cyanuric-acid': 'cyanurate',
  salt: 'salt',
  boron: 'boron',
} as const;

/** What a dose may bring, and where it counts. */
const BROUGHT = (Object.keys(MOLES_OF) as (keyof typeof MOLES_OF)[]).map((content) => ({
  place: CONTENTS.indexOf(content),
  name: MOLES_OF[content],
  mgPerMole: MG_PER_MOLE[content],
}));

const DRIFT = CONTENTS.length;
/** Place of the logarithm of the true volume over the stated one. */
export const VOLUME = 2 * CONTENTS.length;
const BIASES = VOLUME + 1;

const placeOf = (content: Content) => CONTENTS.indexOf(content);

/** The places of the state that a quantity is the sum of. */
export function contentsOf(quantity: SlowQuantity): readonly number[] {
  return quantity === 'total-hardness'
    ? [placeOf('calcium-hardness'), placeOf('magnesium-hardness')]
    : [placeOf(quantity)];
}

export function rowOf(quantity: SlowQuantity): Row {
  return contentsOf(quantity).map((place) => [place, 1] as const);
}

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

export interface SlowRun {
  readonly filter: Filter;
  /** The marks of the filter: one before each moment at which something was read. */
  readonly marks: readonly number[];
  readonly strengths: Strengths;
  readonly methods: ReadonlyMap<string, Method>;
}

/** Places of the state that hold the logarithm of a product's strength over that on its label, with the doubt before. */
type Strengths = ReadonlyMap<string, { readonly place: number; readonly doubt: number }>;

/** One dose tells nothing of a product that its amount leaves open. */
function strengthsOf(events: readonly TrackEvent[], firstPlace: number): Strengths {
  const doses = events.flatMap((event) => (event.kind === 'added' && event.product ? [event.product] : []));
  const ids = [...new Set(doses.map(({ id }) => id))];
  return new Map(
    ids.map((id, i) => [id, { place: firstPlace + i, doubt: doses.find((dose) => dose.id === id)!.doubt }]),
  );
}

/**
 * Runs over all events.
 * @param until the day for which the state is wanted, at or after the last event
 * @param isKept the filter's steps are wanted for a smoother
 */
export function runSlow(
  pool: TrackedPool,
  events: readonly TrackEvent[],
  until: number,
  assumptions: Assumptions,
  isKept = false,
): SlowRun {
  const methods = methodsOf(
    events.filter((event) => event.kind === 'read'),
    BIASES,
  );
  const strengths = strengthsOf(events, BIASES + methods.size);
  const filter = new Filter(startOf(pool, methods.size, strengths), isKept);
  const marks: number[] = [];
  let day = events[0]?.day ?? until;
  let jumps = [...assumptions.jumps].sort((a, b) => a.day - b.day);
  events.forEach((event, i) => {
    if (event.day - day > (event.kind === 'read' || assumptions.marksAll ? 0 : SLOW_ENOUGH_DAYS)) {
      pass(filter, event.day - day);
      day = event.day;
    }
    if (event.kind !== 'read') {
      const mark = () => assumptions.marksAll && filter.mark(event.day);
      mark();
      if (event.kind === 'added') put(filter, pool, event, strengths);
      else exchange(filter, pool, event);
      mark();
      return;
    }
    if (marks.at(-1) !== event.day) {
      filter.mark(event.day);
      marks.push(event.day);
      for (const jump of jumps) if (jump.day <= event.day) leap(filter, jump);
      jumps = jumps.filter((jump) => jump.day > event.day);
      if (assumptions.marksAll) filter.mark(event.day);
    }
    look(filter, rowOf(event.quantity), methods.get(methodKey(event))!, event, {
      sharedVariance: assumptions.sharedVariance,
      doubted: assumptions.doubted.get(i) ?? 1,
      id: i,
      near: assumptions.near?.get(i),
    });
  });
  if (until > day) pass(filter, until - day);
  if (assumptions.marksAll) filter.mark(until);
  return { filter, marks, strengths, methods };
}

/**
 * Between readings a dose may count from so many days before: of what it brings, half a per cent leaves in that time.
 */
const SLOW_ENOUGH_DAYS = 3;

/** Biases are counted in standard deviations of their method's whole error; whose share is taken when they are seen. */
function startOf(pool: TrackedPool, biasCount: number, strengths: Strengths) {
  const biases = new Array<number>(biasCount);
  const doubts = [...strengths.values()].map(({ doubt }) => doubt);
  const habits = CONTENTS.map((content) => HABITS[content]);
  return gaussian(
    [
      ...habits.map(({ start }) => start[0]),
      ...habits.map(({ drift }) => drift[0]),
      0,
      ...biases.fill(0),
      ...doubts.map(() => 0),
    ],
    [
      ...habits.map(({ start }) => start[1]),
      ...habits.map(({ drift }) => drift[1]),
      pool.doubt,
      ...biases.fill(1),
      ...doubts,
    ],
  );
}

/** Time alone: what leaves with the water, what drifts, what can't be foreseen. */
export function pass(filter: Filter, days: number): void {
  const stays = Math.exp(-LEAVES_PER_DAY * days);
  const through = (1 - stays) / LEAVES_PER_DAY;
  CONTENTS.forEach((content, i) => {
    filter.move(i, [
      [i, stays],
      [DRIFT + i, through],
    ]);
    const [absolute, relative] = HABITS[content].wander;
    filter.disturb(i, (absolute ** 2 + (relative * filter.state.mean[i]!) ** 2) * days);
  });
}

function put(filter: Filter, pool: TrackedPool, { moles, doubt, product }: Addition, strengths: Strengths): void {
  const volume = filter.state.mean[VOLUME]!;
  const strong = product && strengths.get(product.id)!.place;
  const strength = strong === undefined ? 0 : filter.state.mean[strong]!;
  const perLitre = Math.exp(strength - volume) / pool.litres;
  for (const { place, name, mgPerMole } of BROUGHT) {
    const brought = moles[name] ?? 0;
    if (brought === 0) continue;
    const rise = mgPerMole * brought * perLitre;
    filter.move(place, [[place, 1], [VOLUME, -rise], ...(strong === undefined ? [] : [[strong, rise] as const])]);
    filter.shift(place, rise * (1 + volume - strength));
    filter.disturb(place, (doubt * rise) ** 2);
  }
}

function exchange(filter: Filter, pool: TrackedPool, { share, doubt, by }: Exchange): void {
  CONTENTS.forEach((content, i) => {
    const before = filter.state.mean[i]!;
    const [mean, deviation] = incoming(content, by, pool);
    filter.move(i, [[i, 1 - share]]);
    filter.shift(i, share * mean);
    filter.disturb(i, (doubt * share * (before - mean)) ** 2 + (share * deviation) ** 2);
  });
}

function incoming(content: Content, by: Exchange['by'], pool: TrackedPool): readonly [number, number] {
  if (by === 'rain') return [0, 0];
  const told = content === 'magnesium-hardness' ? undefined : pool.fill[content];
  return told === undefined ? HABITS[content].fill : [told, 0.05 * told];
}

function leap(filter: Filter, { quantity, size }: Jump): void {
  for (const place of contentsOf(quantity)) filter.disturb(place, size ** 2);
}
