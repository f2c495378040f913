/** How well a reading or a water is known: spans, and the water that is to be expected. */
import type { ActiveChlorine } from '../chlorine.ts';
import type { Water } from '../water.ts';

export interface Span {
  /** The best single value. */
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** A span of a reading and how it is known. */
export interface Known extends Span {
  /** 'derived': worked out from another reading. */
  readonly from: 'measured' | 'derived' | 'assumed';
  /** The reading was off its scale on this side: the far end of the span is a guess. */
  readonly open: 'below' | 'above' | null;
}

export type SpannedReading =
  | 'ph'
  | 'totalAlkalinity'
  | 'calciumHardness'
  | 'salt'
  | 'cyanuricAcid'
  | 'boron'
  | 'freeChlorine'
  | 'combinedChlorine'
  | 'temperatureC';

export interface PredictedWater {
  /** The likeliest water. */
  readonly water: Water;
  readonly spans: Readonly<Record<SpannedReading, Span>>;
  readonly saturationIndex: Span;
  /** Hypochlorous acid, mg/L; the span also covers the two published sets of constants. */
  readonly activeChlorine: Span;
  readonly active: ActiveChlorine;
}
