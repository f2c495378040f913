/**
 * Follows a quantity that moves by itself from day to day, and minds readings that don't fit: the next reading decides
 * whether the water changed or the reading was wrong.
 */
import type { Filter, Row } from './filter.ts';
import { look, methodKey, surprise, type Method, type Seen } from './look.ts';

export type SeenAt = Seen & { readonly kind: 'read'; readonly day: number; readonly entry: string };

export interface Misfit {
  /** 'unconfirmed': the newest reading; a second dip tells. 'misfit': later readings don't bear it out. */
  readonly kind: 'unconfirmed' | 'misfit';
  readonly day: number;
  readonly entry: string;
  readonly value: number;
  /** Of a reading that only says 'more than' or 'less than' its value. */
  readonly bound: Seen['bound'];
  readonly expected: number;
}

/** Standard deviations: one reading in a thousand by chance. */
export const THRESHOLD = 3.3;

/** What the quantity is taken for at a moment, with what was known by then. */
export type OnState = (day: number, mean: number, variance: number) => void;

export function stateTeller(filter: Filter, place: number, onState: OnState | null): ((day: number) => void) | null {
  return onState && ((day) => onState(day, filter.state.mean[place]!, filter.varianceOf([place, 1])));
}

export interface Follower<E extends { readonly kind: string; readonly day: number }> {
  readonly filter: Filter;
  /** What is measured. */
  readonly place: number;
  readonly methods: ReadonlyMap<string, Method>;
  readonly sharedVariance: number;
  /** Lets time pass, from a day to a later one. */
  readonly pass: (from: number, to: number) => void;
  /** Anything but a reading. */
  readonly act: (event: E) => void;
}

/** @param onState told of the state at every event, before and after it, and day by day in between; left out, nobody asks
 * @returns the readings that didn't fit */
export function follow<E extends { readonly kind: string; readonly day: number }>(
  events: readonly (SeenAt | E)[],
  at: number,
  { filter, place, methods, sharedVariance, pass, act }: Follower<E>,
  onState: ((day: number) => void) | null = null,
): Misfit[] {
  const truth: Row = [place, 1];
  const misfits: Misfit[] = [];
  let day = events[0]?.day ?? at;
  let read = 0;
  const passTo = (to: number) => {
    while (onState && to - day > 1) {
      pass(day, day + 1);
      day += 1;
      onState(day);
    }
    pass(day, to);
    day = to;
    onState?.(day);
  };
  const take = (event: SeenAt | E, i: number) => {
    if (!isReading(event)) return act(event);
    const method = methods.get(methodKey(event))!;
    const off = surprise(filter, truth, method, event, sharedVariance);
    read += 1;
    if (Math.abs(off) > THRESHOLD && read > 1) {
      const expected = filter.meanOf(truth);
      const next = events.slice(i + 1).find(isReading);
      const { entry, value, bound } = event;
      if (!next) {
        misfits.push({ kind: 'unconfirmed', day, entry, value, bound, expected });
        // Nobody knows which of the two is right: what is told reaches from one to the other.
        const half = ((value - expected) / 2) ** 2;
        filter.disturb(place, half);
        filter.observe(truth, value, half, i);
        return;
      }
      const isBorneOut = Math.abs(next.value - value) < Math.abs(next.value - expected);
      if (!isBorneOut) {
        misfits.push({ kind: 'misfit', day, entry, value, bound, expected });
        return;
      }
      filter.disturb(place, (value - expected) ** 2);
    }
    look(filter, truth, method, event, { sharedVariance, doubted: 1, id: i });
  };
  events.forEach((event, i) => {
    passTo(event.day);
    take(event, i);
    onState?.(day);
  });
  passTo(at);
  return misfits;
}

function isReading(event: { readonly kind: string }): event is SeenAt {
  return event.kind === 'read';
}
