/** What a plan consists of: codes and numbers only; `wording` turns them into sentences. */
import type { QuantityId } from '../../measurement/quantities.ts';
import type { InputIssue, PlanInput } from '../../pool/schema.ts';
import type { ChlorineUse } from '../../pool/chlorinator.ts';
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
  | 'too-hot'
  | 'chlorine-maybe-low'
  | 'chlorine-maybe-above-limit'
  | 'chlorine-low-for-stabilizer'
  | 'ph-outside-code'
  | 'ph-maybe-outside'
  | 'combined-maybe-high'
  | 'chlorine-not-measured'
  | 'ph-not-measured';

export interface Verdict {
  /** 'no-objection' means that nothing measured speaks against swimming; never that the water is safe. */
  readonly swim: 'stay-out' | 'correct-first' | 'cannot-say' | 'no-objection';
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
  /** What the answer would be at the ends of the span; absent where it changes neither. */
  readonly effect?: {
    readonly saturationIndex: readonly [atLow: number, atHigh: number];
    readonly activeChlorine: readonly [atLow: number, atHigh: number];
  };
}

// ---- what isn't dosed ----

export type HoldReason =
  'straddles' | 'not-measured' | 'strip-unreliable-at-high-chlorine' | 'off-scale' | 'after-dilution';
export type HoldRemedy = 'repeat-test' | 'better-test' | 'measure' | 'wait-for-chlorine' | 'dilute-sample';

/** A need the plan doesn't dose for, because it might not be one. */
export interface Hold {
  readonly target: TargetId;
  readonly reason: HoldReason;
  readonly remedy: HoldRemedy;
}

// ---- upkeep, retest, end ----

/** What the pool needs every day from now on. */
export type Upkeep =
  | {
      readonly kind: 'chlorinator';
      readonly use: ChlorineUse;
      readonly hours: number;
      readonly lowHours: number;
      readonly highHours: number;
      readonly beyondDay: boolean;
      readonly aboveCeiling: boolean;
    }
  | {
      readonly kind: 'product';
      readonly use: ChlorineUse;
      readonly choice: ProductChoice;
      /** A day's worth. */
      readonly amount: Amount;
      /** mg/L of stabilizer that a week of it brings. */
      readonly stabilizerPerWeek: number;
      /** Not what the pool usually gets, because there is stabilizer enough. */
      readonly insteadOfStabilised: boolean;
    }
  | { readonly kind: 'use-only'; readonly use: ChlorineUse };

export type RetestReason =
  'held' | 'after-dose' | 'after-dilution' | 'once-fallen' | 'slow-to-show' | 'before-swimming' | 'routine';

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
