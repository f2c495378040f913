/** What one photo gave. Codes and numbers only; the page and the command word them (see `src/words/reading.ts`). */
import type { Result } from '../measurement/measurement.ts';
import type { PadQuantity } from '../measurement/quantities.ts';

/** Reasons a photo can't support a reading. */
export type RefusalCode =
  | 'not-an-image'
  | 'no-card'
  | 'card-cut-off'
  | 'card-other-version'
  | 'two-cards'
  | 'on-a-screen'
  | 'no-strip'
  | 'blurred'
  | 'too-dark'
  | 'blown-out'
  | 'greys-mixed'
  | 'strip-mismatch'
  | 'strip-face-down'
  | 'pads-dry'
  | 'glare-over-pads'
  | 'deep-shadow'
  | 'two-lights'
  | 'no-colour';

/** Reasons to trust a reading less; the intervals widen where it is known by how much. */
export type WarningCode =
  | 'black-only-card'
  | 'uneven-light'
  | 'shadow-edge'
  | 'mixed-light'
  | 'glare-on-pad'
  | 'pad-clipped'
  | 'colour-filter'
  | 'pad-unmatched'
  | 'perhaps-dry'
  | 'greys-not-neutral'
  | 'poor-fit'
  | 'another-print'
  /** Of several photos read together: a pad differs by more than photos of one strip do. */
  | 'photos-disagree'
  | 'read-early'
  | 'read-late';

/** Where on the card a reason against or a doubt about a reading lies: a polygon, mm, going round. */
export interface Place {
  readonly code: RefusalCode | WarningCode;
  /** The pad it is about, if it is about one. */
  readonly parameter: PadQuantity | null;
  readonly outline: readonly (readonly [number, number])[];
}

/** Where a value stands. 'unmatched' = the pad's colour is near no part of the scale. */
export type Word = 'low' | 'in-range' | 'high' | 'off-scale' | 'unmatched';

/** What a pad gave, and what only a pad has. */
export interface PadReading extends Omit<Result, 'quantity' | 'value' | 'low' | 'high'> {
  readonly quantity: PadQuantity;
  /** Best value; null when unmatched. Off the scale: the end of the scale. */
  readonly value: number | null;
  /** 90 % interval; null when unmatched. */
  readonly low: number | null;
  readonly high: number | null;
  readonly matched: boolean;
  /** CIEDE2000 from the pad to the nearest point of the scale. */
  readonly deltaE: number;
  /** Corrected colour of the pad, Lab D65. */
  readonly lab: readonly [number, number, number];
  /** One standard deviation of it, CIEDE2000; left out in readings of before this was kept. */
  readonly sigma?: number;
  /** The pad's corners on the card, mm. */
  readonly outline: readonly (readonly [number, number])[];
}

export interface ReadOutcome {
  readonly outcome: 'read';
  readonly correction: 'neutrals' | 'anchors';
  readonly pads: readonly PadReading[];
  readonly warnings: readonly WarningCode[];
  /** Where the warnings lie; those about the whole photo have no place. */
  readonly places: readonly Place[];
  /** What the colours rest on; left out in readings of before this was kept. */
  readonly basis?: {
    /** Of the card in the photo; null where it has none, or it couldn't be read. */
    readonly printMark: number | null;
    /** Position of the teaching photo in whose colours the pads are given; null for the greys alone. */
    readonly teaching: number | null;
  };
  /** Of each photo by itself, where several of the same strip were read together. */
  readonly together?: readonly ReadOutcome[];
  /** What was measured about the photo itself. */
  readonly quality: {
    /** Root mean square misfit of the neutrals after correction, CIEDE2000. */
    readonly neutralResidual: number;
    /** Largest change of light over the slot, in per cent. */
    readonly shadingPercent: number;
    /** Root mean square misfit of the inner marks, mm on the card. */
    readonly marksResidualMm: number;
  };
}

export interface RefusedOutcome {
  readonly outcome: 'refused';
  readonly reasons: readonly RefusalCode[];
  /** Where the reasons lie; empty when they are about the whole photo, or no card was found. */
  readonly places: readonly Place[];
  /** Which cards 'two-cards' is about, in the order in which one is chosen: from the left, or from the top. */
  readonly cards?: readonly CardOutline[];
}

/** A card's corners in the photo, as shares of its width and height: top left, top right, bottom right, bottom left as printed. */
export type CardOutline = readonly (readonly [number, number])[];

export type Reading = ReadOutcome | RefusedOutcome;
