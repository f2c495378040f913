/** What happened to the water, as the estimate takes it. Times are in days from any moment, in ascending order. */
import type { Change } from '../water/moves/reagents.ts';

/** They leave only with the water or by what is put in: a straight line with known steps follows them. */
export const SLOW_QUANTITIES = [
  'total-alkalinity',
  'calcium-hardness',
  'total-hardness',
  'cyanuric-acid',
  'salt',
  'boron',
] as const;
export type SlowQuantity = (typeof SLOW_QUANTITIES)[number];

export interface Observation {
  readonly kind: 'read';
  readonly day: number;
  readonly quantity: SlowQuantity;
  /** mg/L */
  readonly value: number;
  /** Standard deviation of the whole error, mg/L: what differs from test to test and what the method always gets wrong. */
  readonly deviation: number;
  /** The same below and above the value, where the interval says so. */
  readonly sides?: readonly [below: number, above: number];
  /** The test only says that the truth lies above (below) the value. */
  readonly bound: 'above' | 'below' | null;
  /** What shares an error with what: one scale, one kit, one meter. */
  readonly method: string;
  /** Share of the error's variance that the method always has; null for photos, whose share is learnt. */
  readonly sharedVariance: number | null;
  /** Whose number it is, for what is said about it. */
  readonly entry: string;
}

export interface Addition {
  readonly kind: 'added';
  readonly day: number;
  /** mol (alkalinity: equivalents) into the whole pool; chlorine counted as used up. */
  readonly moles: Change;
  /** One standard deviation of the amount, as a share of it: measuring it out. */
  readonly doubt: number;
  /** What always differs from its label alike; one standard deviation of the strength's logarithm. */
  readonly product?: { readonly id: string; readonly doubt: number };
}

export interface Exchange {
  readonly kind: 'exchanged';
  readonly day: number;
  /** Of the pool's water, 0-1. */
  readonly share: number;
  /** One standard deviation of the share, as a share of it. */
  readonly doubt: number;
  /** What came in. */
  readonly by: 'fill' | 'rain';
}

export type TrackEvent = Observation | Addition | Exchange;

/** mg/L, what the hose brings; what is left out is taken as usual tap water, with its doubt. */
export type FillContents = Partial<Readonly<Record<Exclude<SlowQuantity, 'total-hardness'>, number>>>;

export interface TrackedPool {
  readonly litres: number;
  /** One standard deviation of its logarithm. */
  readonly doubt: number;
  readonly fill: FillContents;
  /** mm of water on the whole; absent where its surface isn't known. */
  readonly depthMm?: number | undefined;
  /** What the rain of the place's climate does between two days; absent where it never runs over. */
  readonly climateRain?: ((from: number, to: number) => ClimateRain) | undefined;
}

/** Shares of the pool's water, summed over days. */
export interface ClimateRain {
  readonly runsOver: number;
  /** All that falls in the months in which it runs over. */
  readonly falls: number;
}
