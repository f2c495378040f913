/** What the judges of a photo hand on: reasons to refuse it, and doubts that widen intervals. */
import type { PadQuantity } from '../measurement/quantities.ts';
import type { Place, RefusalCode, WarningCode } from './reading.ts';

export type Outline = Place['outline'];

export interface Doubt {
  readonly code: WarningCode;
  /** Standard deviation that it adds to a pad's colour, CIEDE2000; 0 only tells. */
  readonly sigma: number;
  /** The one pad it is about; null: all of them. */
  readonly parameter: PadQuantity | null;
  /** Where on the card it lies; null: everywhere. */
  readonly outline: Outline | null;
}

export interface Objection {
  readonly code: RefusalCode;
  readonly parameter: PadQuantity | null;
  readonly outline: Outline | null;
}

export interface Judgement {
  readonly objections: readonly Objection[];
  readonly doubts: readonly Doubt[];
}

export function mergeJudgements(...judgements: readonly Judgement[]): Judgement {
  return {
    objections: judgements.flatMap(({ objections }) => objections),
    doubts: judgements.flatMap(({ doubts }) => doubts),
  };
}

/** What the doubts add to one pad's colour, CIEDE2000. */
export function doubtSigma(doubts: readonly Doubt[], parameter: PadQuantity): number {
  const ours = doubts.filter((doubt) => doubt.parameter === null || doubt.parameter === parameter);
  return Math.hypot(...ours.map(({ sigma }) => sigma));
}

/** Each code once, in the order in which they came. */
export function codesOf<Code extends string>(reasons: readonly { readonly code: Code }[]): Code[] {
  return [...new Set(reasons.map(({ code }) => code))];
}

export function placesOf(reasons: readonly (Doubt | Objection)[]): Place[] {
  return reasons.flatMap(({ code, parameter, outline }) => (outline ? [{ code, parameter, outline }] : []));
}
