/**
 * What the readings say that nothing in the log explains: a sudden change between two of them, or one reading that the
 * others contradict. Found by what the whole series says of each moment (de Jong & Penzer 1998), taken into account one
 * after another, the clearest first, and never smeared over.
 */
import type { Observation, SlowQuantity, TrackEvent } from './events.ts';
import { runSlow, type Assumptions, type Jump } from './slow-model.ts';
import type { SlowState } from './slow-state.ts';
import { smooth } from './smoother.ts';

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

export interface Explained {
  readonly oddities: readonly Oddity[];
  readonly assumptions: Assumptions;
}

export function explain(state: SlowState, sharedVariance: number): Explained {
  const { events } = state;
  const oddities: Oddity[] = [];
  const jumps: Jump[] = [];
  const doubted = new Map<number, number>();
  const index = indexOf(state);
  const last = events.at(-1)?.day ?? 0;
  for (;;) {
    const assumptions = { sharedVariance, jumps, doubted };
    const smoothed = smooth(runSlow(state, last, assumptions, true));
    const next = oddities.length < MAX_ODDITIES ? clearest(smoothed, state, index, assumptions) : null;
    if (!next) {
      // Each reading was laid straight at its own moment's guess; laid straight at what all say, they say it better.
      const first = { ...assumptions, near: nearOf(smoothed, state, index, jumps) };
      const near = nearOf(smooth(runSlow(state, last, first, true)), state, index, jumps);
      return { oddities: oddities.sort((a, b) => dayOf(a) - dayOf(b)), assumptions: { ...assumptions, near } };
    }
    oddities.push(next.oddity);
    if (next.jump) jumps.push(next.jump);
    else doubted.set(next.observation, DOUBTED);
  }
}

/**
 * Of how far a reading draws the estimate to itself, what is taken off again where it is laid straight: there, a reading
 * that errs upwards would count for wider blocks than one that errs downwards, and their scale would seem to read high.
 * Half, as the blocks' width is in both its bias and its own error; by simulation all of it turns the fault round.
 */
const OWN_PULL = 0.5;

/** What each reading measures, by all of them; not where it jumps, as its own side of the jump isn't told. */
function nearOf(
  { states, misfits }: ReturnType<typeof smooth>,
  { events, places }: SlowState,
  index: ReadingIndex,
  jumps: readonly Jump[],
): ReadonlyMap<number, number> {
  const byDay = new Map(states.map((state) => [state.id, state.mean]));
  const pulls = new Map(misfits.map(({ id, pull }) => [id, pull]));
  const near = new Map<number, number>();
  events.forEach((event, i) => {
    if (event.kind !== 'read') return;
    if (jumps.some(({ day, quantity }) => day === event.day && index.sharesContent(quantity, event.quantity))) return;
    const mean = byDay.get(event.day)!;
    const there = places.get(event.quantity)!.reduce((sum, place) => sum + mean[place]!, 0);
    near.set(i, Math.max(0, there - OWN_PULL * (pulls.get(i) ?? 0)));
  });
  return near;
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
  { events, places }: SlowState,
  index: ReadingIndex,
  assumptions: Assumptions,
): Found | null {
  let found: Found | null = null;
  let most = THRESHOLD;
  for (const { id, size } of misfits) {
    const observation = events[id] as Observation;
    if (Math.abs(size) <= most || assumptions.doubted.has(id) || index.isLast(id)) continue;
    most = Math.abs(size);
    const expected = observation.value - size * observation.deviation;
    found = { oddity: misfit('misfit', observation, expected), jump: null, observation: id };
  }
  const firsts = [...places].map(([quantity, [place]]) => ({ quantity, place: place! }));
  for (const state of states) {
    for (const { quantity, place } of firsts) {
      const shock = { z: state.shock[place]!, size: state.shockSize[place]! };
      if (Math.abs(shock.z) <= most) continue;
      const seen = index.at(state.id, quantity);
      if (seen === undefined || index.isFirst(seen)) continue;
      const isSame = (jump: Jump) => jump.day === state.id && index.sharesContent(jump.quantity, quantity);
      if (assumptions.jumps.some(isSame)) continue;
      most = Math.abs(shock.z);
      const observation = events[seen] as Observation;
      const jump = { day: state.id, quantity, size: 2 * Math.abs(shock.size) };
      found = index.isLast(seen)
        ? { oddity: misfit('unconfirmed', observation, observation.value - shock.size), jump, observation: seen }
        : { oddity: leapAt(events, index, state.id, quantity, shock), jump, observation: seen };
    }
  }
  return found;
}

interface Shock {
  readonly z: number;
  readonly size: number;
}

function leapAt(
  events: readonly TrackEvent[],
  index: ReadingIndex,
  day: number,
  quantity: SlowQuantity,
  shock: Shock,
): Oddity {
  const earlier = events.filter(
    (event) => event.kind === 'read' && event.day < day && index.sharesContent(event.quantity, quantity),
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

function misfit(kind: 'misfit' | 'unconfirmed', seen: Observation, expected: number): Oddity {
  const { quantity, day, entry, value } = seen;
  return { kind, quantity, day, entry, value, expected };
}

/** Which events read what, by their places among the events. */
interface ReadingIndex {
  /** The first that read a quantity on a day. */
  readonly at: (day: number, quantity: SlowQuantity) => number | undefined;
  /** Nothing that it measures was measured on an earlier (later) day. */
  readonly isFirst: (event: number) => boolean;
  readonly isLast: (event: number) => boolean;
  readonly sharesContent: (a: SlowQuantity, b: SlowQuantity) => boolean;
}

function indexOf({ events, places }: SlowState): ReadingIndex {
  const seen = new Map([...places.keys()].map((quantity) => [quantity, new Map<number, number>()]));
  const first: number[] = [];
  const last: number[] = [];
  events.forEach((event, i) => {
    if (event.kind !== 'read') return;
    const byDay = seen.get(event.quantity)!;
    if (!byDay.has(event.day)) byDay.set(event.day, i);
    for (const place of places.get(event.quantity)!) {
      first[place] ??= event.day;
      last[place] = event.day;
    }
  });
  const every = (event: number, days: readonly number[]) => {
    const { quantity, day } = events[event] as Observation;
    return places.get(quantity)!.every((place) => days[place] === day);
  };
  return {
    at: (day, quantity) => seen.get(quantity)!.get(day),
    isFirst: (event) => every(event, first),
    isLast: (event) => every(event, last),
    sharesContent: (a, b) => places.get(a)!.some((place) => places.get(b)!.includes(place)),
  };
}
