/** What a plan consists of: codes and numbers only; `src/words/plan` turns them into sentences. */
import type { QuantityId } from '../../measurement/quantities.ts';
import type { InputIssue, PlanInput } from '../../pool/schema.ts';
import type { Month } from '../../pool/climate.ts';
import type { ChlorineUse, SeasonSetting } from '../../pool/chlorinator.ts';
import type { CautionCode } from '../cautions.ts';
import type { ProductId } from '../products.ts';
import type { Target, TargetId, Targets } from '../targets.ts';
import type { Known, PredictedWater, Span } from './spanned.ts';
import type { Amount, ProductChoice, Step } from './step.ts';

/** Where a span lies against its target. */
export type Judgement = 'low' | 'in-range' | 'high' | 'maybe-low' | 'maybe-high' | 'maybe-either' | 'unknown';

export interface Finding {
  readonly target: TargetId;
  /** Null when nothing is known about it. */
  readonly known: Known | null;
  /** What it is judged against: the chlorine by the stabilizer there is now. */
  readonly against: Target;
  readonly judgement: Judgement;
}

// ---- the verdict ----

export type VerdictReason =
  | 'bottom-not-visible'
  | 'green-water'
  | 'cloudy-water'
  | 'chlorine-too-low'
  | 'chlorine-above-limit'
  | 'ph-too-low'
  | 'ph-too-high'
  | 'combined-too-high'
  | 'combined-above-target'
  | 'too-hot'
  | 'maybe-too-hot'
  | 'cold-water'
  | 'chlorine-maybe-low'
  | 'chlorine-maybe-above-limit'
  | 'chlorine-above-label'
  | 'chlorine-low-for-stabilizer'
  | 'chlorine-maybe-low-for-stabilizer'
  | 'stabilizer-not-measured'
  | 'ph-outside-code'
  | 'ph-maybe-above-code'
  | 'ph-maybe-outside'
  | 'combined-maybe-high'
  | 'chlorine-not-measured'
  | 'ph-not-measured';

export interface Verdict {
  /**
   * 'no-objection': no reading, no end of one and nothing open reaches a limit; never that the water is safe.
   * 'with-care': the same, but something is to be minded.
   */
  readonly swim: 'stay-out' | 'correct-first' | 'cannot-say' | 'with-care' | 'no-objection';
  readonly reasons: readonly VerdictReason[];
  /** Readings of ours that are missing. */
  readonly notMeasured: readonly QuantityId[];
  /** Whether the floor can be seen was not told: a condition on the verdict. */
  readonly onlyIfBottomVisible: boolean;
}

// ---- assumptions ----

export type AssumptionCode =
  | 'ph'
  | 'total-alkalinity'
  | 'calcium-hardness'
  | 'calcium-from-total'
  | 'cyanuric-acid'
  | 'salt'
  | 'boron'
  | 'temperature'
  | 'free-chlorine'
  | 'test-error'
  | 'fill-water'
  | 'strength'
  | 'chlorine-use';

export interface Assumption {
  readonly code: AssumptionCode;
  readonly span: Span;
  /** The readings whose spans were assumed ('test-error'), or the product ('strength'). */
  readonly readings?: readonly QuantityId[];
  readonly product?: ProductId;
  /** Whose mean air temperature it was taken from. */
  readonly month?: Month;
  /** What the answer would be at the ends of the span; absent where it changes neither. */
  readonly effect?: {
    readonly saturationIndex: readonly [atLow: number, atHigh: number];
    readonly activeChlorine: readonly [atLow: number, atHigh: number];
  };
}

// ---- what isn't dosed ----

export type HoldReason =
  | 'straddles'
  | 'not-measured'
  | 'strip-unreliable-at-high-chlorine'
  | 'off-scale'
  | 'after-dilution'
  /** A chlorine of nothing beside pale pads may be far too much of it. */
  | 'maybe-bleached'
  /** The water would scale, or be out of a span, until something else is put right that can't be dosed for now. */
  | 'index-first'
  /** Only once chlorine is no longer used up overnight. */
  | 'after-the-fight'
  /** What it would take moves nothing that a test can tell. */
  | 'too-little-to-tell';
export type HoldRemedy =
  | 'repeat-test'
  | 'better-test'
  | 'measure'
  | 'wait-for-chlorine'
  | 'dilute-sample'
  | 'bleach-check'
  | 'once-chlorine-holds'
  | 'plan-again';

/** A need the plan doesn't dose for, because it might not be one. */
export interface Hold {
  readonly target: TargetId;
  readonly reason: HoldReason;
  readonly remedy: HoldRemedy;
}

// ---- upkeep, retest, end ----

/** Nothing is added from day to day until this is over. */
export interface Pause {
  readonly reason: 'above-target' | 'salt-low';
  /** Roughly; null where it isn't a matter of time. */
  readonly days: number | null;
}

/** What the pool needs every day from now on. */
export type Upkeep =
  | {
      readonly kind: 'chlorinator';
      readonly use: ChlorineUse;
      /** Of the day at the given setting. */
      readonly hours: number;
      readonly lowHours: number;
      readonly highHours: number;
      readonly beyondDay: boolean;
      readonly aboveCeiling: boolean;
      /** Per cent to set for the hours of the pump's timer; above 100 the cell can't keep up in them. */
      readonly timer: { readonly hours: number; readonly percent: number; readonly isUsual: boolean };
      /** mg/L a day that it makes at the setting it has, in the hours of the timer. */
      readonly makes: number;
      /** Per cent for the timer's hours, as the water warms and cools. */
      readonly seasons: readonly SeasonSetting[];
      readonly pause: Pause | null;
    }
  | {
      readonly kind: 'product';
      readonly use: ChlorineUse;
      readonly choice: ProductChoice;
      /** A day's worth. */
      readonly amount: Amount;
      /** mg/L of stabilizer that a week of it brings. */
      readonly stabilizerPerWeek: number;
      /** Why it isn't what the pool usually gets: stabilizer enough, or water too cold for the cell. */
      readonly instead: 'of-stabilised' | 'of-cold-cell' | null;
      readonly pause: Pause | null;
    }
  | { readonly kind: 'use-only'; readonly use: ChlorineUse; readonly pause: Pause | null };

export type RetestReason =
  | 'held'
  | 'after-dose'
  | 'after-dilution'
  | 'once-fallen'
  | 'slow-to-show'
  | 'before-swimming'
  | 'may-leave'
  | 'routine';

export interface Retest {
  readonly reading: QuantityId;
  /** After the last step it depends on; 0 = now. */
  readonly afterHours: number;
  readonly reason: RetestReason;
  readonly remedy: HoldRemedy | null;
}

export type OutsideReason =
  | 'held-for-retest'
  | 'not-measured'
  | 'dosed-for-cautious-end'
  | 'goes-on-after-retest'
  | 'leaves-only-with-water'
  | 'falls-by-itself'
  | 'raised-on-purpose'
  | 'comes-down-with-acid'
  | 'moved-by-another-step'
  | 'lifted-by-chlorine'
  | 'kept-low-for-the-index'
  | 'comes-with-the-chlorine'
  | 'kept-by-ph-instead'
  | 'calcium-or-alkalinity-first'
  | 'no-level-fits-the-stabilizer'
  | 'too-little-to-measure';

export interface EndCheck {
  readonly target: TargetId;
  readonly span: Span;
  readonly inside: boolean;
  readonly why: OutsideReason | null;
}

/** In the owner's own money. */
export interface Cost {
  /** What the steps take; null where none of their products has a price. */
  readonly steps: number | null;
  /** Without a price, and so not in the sums. */
  readonly unpriced: readonly ProductId[];
  /** Chlorine by hand for a season of `days`; null where a cell makes it or it has no price. */
  readonly season: { readonly amount: number; readonly days: number } | null;
}

/** What is told and not treated. */
export type Told =
  | {
      readonly code: 'borate';
      readonly judgement: 'low' | 'in-range' | 'high';
      readonly value: number;
      readonly low: number;
      readonly high: number;
      /** g of boric acid to the middle of the target; 0 where none is wanted. */
      readonly boricAcidGrams: number;
    }
  | { readonly code: 'stains-brown' | 'stains-blue-green' | 'stains-black' | 'phosphate' };

export type NothingNeeded = 'all-in-range' | 'only-holds' | 'out-but-not-to-be-dosed';

export interface Plan {
  readonly input: PlanInput;
  readonly targets: Targets;
  readonly verdict: Verdict;
  readonly now: PredictedWater;
  readonly findings: readonly Finding[];
  readonly assumptions: readonly Assumption[];
  readonly holds: readonly Hold[];
  readonly steps: readonly Step[];
  /** Set when there are no steps, and why. */
  readonly nothingNeeded: NothingNeeded | null;
  readonly upkeep: Upkeep | null;
  readonly cost: Cost | null;
  readonly told: readonly Told[];
  readonly end: PredictedWater;
  readonly endChecks: readonly EndCheck[];
  readonly retests: readonly Retest[];
  readonly generalCautions: readonly CautionCode[];
}

/** Readings that can't be those of one water. */
export type Contradiction = { readonly path: InputIssue['path'] } & (
  | { readonly code: 'total-below-free'; readonly total: number; readonly free: number }
  | { readonly code: 'calcium-above-total'; readonly calcium: number; readonly total: number }
  | {
      readonly code: 'alkalinity-too-low-for-ph';
      readonly ph: number;
      readonly alkalinity: number;
      readonly cyanuricAcid: number;
    }
  | { readonly code: 'ph-too-low-for-alkalinity'; readonly ph: number; readonly alkalinity: number }
  | { readonly code: 'too-concentrated' }
);

export type PlanIssue = InputIssue | Contradiction;

export type PlanOutcome =
  { readonly ok: true; readonly plan: Plan } | { readonly ok: false; readonly issues: readonly PlanIssue[] };
