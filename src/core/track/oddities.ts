/**
 * What the readings say that nothing in the log explains: a sudden change between two of them, or one reading that the
 * others contradict. Found by what the whole series says of each moment (de Jong & Penzer 1998), taken into account one
 * after another, the clearest first, and never smeared over.
 */
import { SLOW_QUANTITIES, type Observation, type SlowQuantity, type TrackedPool, type TrackEvent } from './events.ts';
import { smooth, type Smoothed } from './smoother.ts';
import { CONTENTS, contentsOf, runSlow, type Assumptions, type Jump } from './slow-model.ts';

export type Oddity =
  | {
      /** It changed between two readings, and both it and what came after agree. */
      readonly kind: 'jump';
      readonly quantity: SlowQuantity;
      /** The last reading before it, and the first after it, in days. */
      readonly after: number;
      readonly before: number;
      /** mg/L */
      readonly change: number;
      readonly deviation: number;
    }
  | {
      /** 'misfit': later readings don't bear it out. 'unconfirmed': the newest; a second dip tells. */
      readonly kind: 'misfit' | 'unconfirmed';
      readonly quantity: SlowQuantity;
      readonly day: number;
      readonly entry: string;
      readonly value: number;
      /** What the others lead to expect, mg/L. */
      readonly expected: number;
    };

/** Standard deviations. By chance one in a thousand numbers lies so far off: about one in eight seasons of strips. */
const THRESHOLD = 3.3;
const MAX_ODDITIES = 12;
/** A reading that doesn't fit still says a little. */
const DOUBTED = 5;
const PLACES = CONTENTS.map((_, i) => i);

export interface Explained {
  readonly oddities: readonly Oddity[];
  readonly assumptions: Assumptions;
}

export function explain(pool: TrackedPool, events: readonly TrackEvent[], sharedVariance: number): Explained {
  const oddities: Oddity[] = [];
  const jumps: Jump[] = [];
  const doubted = new Map<number, number>();
  const index = indexOf(events);
  for (;;) {
    const assumptions = { sharedVariance, jumps, doubted };
    const { filter } = runSlow(pool, events, events.at(-1)?.day ?? 0, assumptions, true);
    const smoothed = smooth(filter.steps, filter.state.size, PLACES);
    const next = oddities.length < MAX_ODDITIES ? clearest(smoothed, events, index, assumptions) : null;
    if (!next) {
      const near = nearOf(smoothed.states, events, jumps);
      return { oddities: oddities.sort((a, b) => dayOf(a) - dayOf(b)), assumptions: { ...assumptions, near } };
    }
    oddities.push(next.oddity);
    if (next.jump) jumps.push(next.jump);
    else doubted.set(next.observation, DOUBTED);
  }
}

/** What each reading measures, by all of them; not where it jumps, as its own side of the jump isn't told. */
function nearOf(
  states: readonly Smoothed[],
  events: readonly TrackEvent[],
  jumps: readonly Jump[],
): ReadonlyMap<number, number> {
  const byDay = new Map(states.map((state) => [state.id, state.mean]));
  return new Map(
    events.flatMap((event, i): [number, number][] => {
      const mean = event.kind === 'read' ? byDay.get(event.day) : undefined;
      if (event.kind !== 'read' || !mean) return [];
      if (jumps.some(({ day, quantity }) => day === event.day && sharesContent(quantity, event.quantity))) return [];
      return [
        [
          i,
          Math.max(
            0,
            contentsOf(event.quantity).reduce((sum, place) => sum + mean[place]!, 0),
          ),
        ],
      ];
    }),
  );
}

export const dayOf = (oddity: Oddity) => (oddity.kind === 'jump' ? oddity.before : oddity.day);

interface Found {
  readonly oddity: Oddity;
  /** To be allowed for; null where a reading is doubted instead. */
  readonly jump: Jump | null;
  readonly observation: number;
}

function clearest(
  { states, misfits }: ReturnType<typeof smooth>,
  events: readonly TrackEvent[],
  index: ReadingIndex,
  assumptions: Assumptions,
): Found | null {
  let found: Found | null = null;
  let most = THRESHOLD;
  for (const { id, size } of misfits) {
    const observation = events[id] as Observation;
    if (Math.abs(size) <= most || assumptions.doubted.has(id) || index.isLast(id)) continue;
    most = Math.abs(size);
    found = { oddity: misfit('misfit', observation, size), jump: null, observation: id };
  }
  for (const state of states) {
    for (const quantity of SLOW_QUANTITIES) {
      const shock = strongest(state, quantity);
      const seen = index.at(state.id, quantity);
      if (Math.abs(shock.z) <= most || seen === undefined || index.isFirst(seen)) continue;
      if (assumptions.jumps.some((jump) => jump.day === state.id && sharesContent(jump.quantity, quantity))) continue;
      most = Math.abs(shock.z);
      const observation = events[seen] as Observation;
      const jump = { day: state.id, quantity, size: 2 * Math.abs(shock.size) };
      found = index.isLast(seen)
        ? { oddity: misfit('unconfirmed', observation, shock.z), jump, observation: seen }
        : { oddity: leapAt(events, state.id, quantity, shock), jump, observation: seen };
    }
  }
  return found;
}

interface Shock {
  readonly z: number;
  readonly size: number;
}

function strongest(state: Smoothed, quantity: SlowQuantity): Shock {
  const place = contentsOf(quantity)[0]!;
  return { z: state.shock[place]!, size: state.shockSize[place]! };
}

function sharesContent(a: SlowQuantity, b: SlowQuantity): boolean {
  return contentsOf(a).some((place) => contentsOf(b).includes(place));
}

function leapAt(events: readonly TrackEvent[], day: number, quantity: SlowQuantity, shock: Shock): Oddity {
  const earlier = events.filter(
    (event) => event.kind === 'read' && event.day < day && sharesContent(event.quantity, quantity),
  );
  return {
    kind: 'jump',
    quantity,
    after: earlier.at(-1)?.day ?? day,
    before: day,
    change: shock.size,
    deviation: Math.abs(shock.size / shock.z),
  };
}

function misfit(kind: 'misfit' | 'unconfirmed', seen: Observation, size: number): Oddity {
  const { quantity, day, entry, value, deviation } = seen;
  return { kind, quantity, day, entry, value, expected: value - size * deviation };
}

/** Which events read what, by their places among the events. */
interface ReadingIndex {
  /** The first that read a quantity on a day. */
  readonly at: (day: number, quantity: SlowQuantity) => number | undefined;
  /** Nothing that it measures was measured on an earlier (later) day. */
  readonly isFirst: (event: number) => boolean;
  readonly isLast: (event: number) => boolean;
}

function indexOf(events: readonly TrackEvent[]): ReadingIndex {
  const places = new Map<string, number>();
  const first = new Map<number, number>();
  const last = new Map<number, number>();
  events.forEach((event, i) => {
    if (event.kind !== 'read') return;
    const key = `${event.quantity} ${event.day}`;
    if (!places.has(key)) places.set(key, i);
    for (const content of contentsOf(event.quantity)) {
      if (!first.has(content)) first.set(content, event.day);
      last.set(content, event.day);
    }
  });
  const every = (event: number, days: ReadonlyMap<number, number>) => {
    const { quantity, day } = events[event] as Observation;
    return contentsOf(quantity).every((content) => days.get(content) === day);
  };
  return {
    at: (day, quantity) => places.get(`${quantity} ${day}`),
    isFirst: (event) => every(event, first),
    isLast: (event) => every(event, last),
  };
}
