/** What the state of the slow quantities holds, and where: only what something in the log is about. */
import type { SlowQuantity, TrackedPool, TrackEvent } from './events.ts';
import { gaussian, type Gaussian, type Row } from './filter.ts';
import { methodKey, methodsOf, type Method } from './look.ts';

/** What the state holds of the water; a total hardness is calcium and magnesium together. */
const CONTENTS = [
  'total-alkalinity',
  'calcium-hardness',
  'magnesium-hardness',
  'cyanuric-acid',
  'salt',
  'boron',
] as const;
export type Content = (typeof CONTENTS)[number];

interface Habit {
  /** Before anything was read: mean and standard deviation, mg/L. */
  readonly start: readonly [number, number];
  /** A day's change by itself, beyond what leaves with the water and comes from the tap: mean and standard deviation, mg/L. */
  readonly drift: readonly [number, number];
  /** What a day adds at random: one standard deviation, mg/L and share of what is there. */
  readonly wander: readonly [number, number];
  /** In usual tap water: mean and standard deviation, mg/L. */
  readonly fill: readonly [number, number];
}

/**
 * Common practice, no source, but for the fill: pools as they are met. Wide on purpose: a few readings take their place.
 * Stabilizer wears off by some mg/L a month; alkalinity wanders most, as acid is what is dosed most often and so forgotten
 * most often.
 */
export const HABITS: Record<Content, Habit> = {
  'total-alkalinity': { start: [100, 60], drift: [0, 0.7], wander: [1.4, 0.01], fill: [120, 60] },
  'calcium-hardness': { start: [220, 150], drift: [0, 0.9], wander: [1, 0.01], fill: [120, 80] },
  'magnesium-hardness': { start: [40, 40], drift: [0, 0.2], wander: [0.2, 0.006], fill: [30, 25] },
  'cyanuric-acid': { start: [40, 40], drift: [-0.05, 0.1], wander: [0.1, 0.005], fill: [0, 0] },
  salt: { start: [2500, 1500], drift: [0, 3], wander: [3, 0.003], fill: [60, 50] },
  boron: { start: [0, 20], drift: [0, 0.01], wander: [0.02, 0.005], fill: [0, 0] },
};

/** Share of the water that a day takes by splash, leaks and backwash that isn't written down. Common practice, no source. */
export const LEAVES_PER_DAY = 0.001;
/** Share of the water that the tap replaces in a day: that, and 4 mm of 1.3 m that evaporate beyond what rains. */
const TOPPED_UP_PER_DAY = LEAVES_PER_DAY + 4 / 1300;
/** More in summer than in spring: a day adds this part of a drift's doubt to it, at random. Common practice, no source. */
export const DRIFT_WANDER = 0.04;

/** mg/L in what the hose brings: mean and standard deviation. */
export function fillOf({ fill }: TrackedPool, content: Content): readonly [number, number] {
  const told = content === 'magnesium-hardness' ? undefined : fill[content];
  return told === undefined ? HABITS[content].fill : [told, 0.05 * told];
}

/**
 * The level falls by evaporation and splash and is topped up, or rises by rain until it runs over: one standard deviation
 * of the share of water too little or too much, days until a swing is all but gone, and how much too much fits in. Common
 * practice, no source: 5 mm a day of 1.3 m, topped up after some 3 cm, so a saw-tooth of six days, of which the next day
 * says little; 4 cm of freeboard.
 */
export const LEVEL = { swing: 0.012, days: 2, freeboard: 0.03 } as const;

/** Places of the state that hold the logarithm of a product's strength over that on its label, with the doubt before. */
type Strengths = ReadonlyMap<string, { readonly place: number; readonly doubt: number }>;

export interface SlowState {
  readonly pool: TrackedPool;
  readonly events: readonly TrackEvent[];
  /** What was measured of the water: these come first, in this order. What nobody measured tells nothing of the rest. */
  readonly contents: readonly Content[];
  /** Place of the first content's drift; the others' follow. */
  readonly drift: number;
  /** Place of the logarithm of the true volume over the stated one. */
  readonly volume: number;
  /** Place of the share by which all contents are denser than at the usual level: water is missing, or too much is there. */
  readonly level: number;
  readonly strengths: Strengths;
  readonly methods: readonly Method[];
  /** Of each event that is a reading, by its place among the events, how it was made. */
  readonly methodOf: readonly (Method | undefined)[];
  /** The places of the state that a quantity is the sum of. */
  readonly places: ReadonlyMap<SlowQuantity, readonly number[]>;
  readonly rows: ReadonlyMap<SlowQuantity, Row>;
  /** Before the first event. */
  readonly start: Gaussian;
}

export function slowState(pool: TrackedPool, events: readonly TrackEvent[]): SlowState {
  const readings = events.filter((event) => event.kind === 'read');
  const read = [...new Set(readings.map(({ quantity }) => quantity))];
  const measured = new Set(read.flatMap(contentsIn));
  const contents = CONTENTS.filter((content) => measured.has(content));
  const volume = 2 * contents.length;
  const level = volume + 1;
  const methods = methodsOf(readings, level + 1);
  const strengths = strengthsOf(events, level + 1 + methods.size);
  const places = new Map(
    read.map((quantity) => [quantity, contentsIn(quantity).map((content) => contents.indexOf(content))]),
  );
  return {
    pool,
    events,
    contents,
    drift: contents.length,
    volume,
    level,
    strengths,
    methods: [...methods.values()],
    methodOf: events.map((event) => (event.kind === 'read' ? methods.get(methodKey(event)) : undefined)),
    places,
    rows: new Map([...places].map(([quantity, some]) => [quantity, some.flatMap((place) => [place, 1])])),
    start: startOf(pool, contents, methods.size, strengths),
  };
}

function contentsIn(quantity: SlowQuantity): readonly Content[] {
  return quantity === 'total-hardness' ? ['calcium-hardness', 'magnesium-hardness'] : [quantity];
}

/** One dose tells nothing of a product that its amount leaves open. */
function strengthsOf(events: readonly TrackEvent[], firstPlace: number): Strengths {
  const doubts = new Map<string, number>();
  for (const event of events) {
    if (event.kind !== 'added' || !event.product || doubts.has(event.product.id)) continue;
    doubts.set(event.product.id, event.product.doubt);
  }
  return new Map([...doubts].map(([id, doubt], i) => [id, { place: firstPlace + i, doubt }]));
}

/** Biases are counted in standard deviations of their method's whole error; whose share is taken when they are seen. */
function startOf(pool: TrackedPool, contents: readonly Content[], biasCount: number, strengths: Strengths): Gaussian {
  const biases = new Array<number>(biasCount);
  const doubts = [...strengths.values()].map(({ doubt }) => doubt);
  const habits = contents.map((content) => HABITS[content]);
  const byTap = contents.map((content) => TOPPED_UP_PER_DAY * fillOf(pool, content)[0]);
  return gaussian(
    [
      ...habits.map(({ start }) => start[0]),
      ...habits.map(({ drift }, i) => drift[0] + byTap[i]!),
      0,
      0,
      ...biases.fill(0),
      ...doubts.map(() => 0),
    ],
    [
      ...habits.map(({ start }) => start[1]),
      ...habits.map(({ drift }) => drift[1]),
      pool.doubt,
      LEVEL.swing,
      ...biases.fill(1),
      ...doubts,
    ],
  );
}
