/** What a plan consists of: codes and numbers only; `wording` turns them into sentences. */
import type { InputIssue, PlanInput, ReadingId } from '../../pool/schema.ts';
import type { ChlorineUse } from '../../pool/chlorinator.ts';
import type { CautionCode } from '../cautions.ts';
import type { ActiveChlorine } from '../chlorine.ts';
import type { Measure } from '../measure.ts';
import type { HowCode, ProductId, Purpose } from '../products.ts';
import type { Target, TargetId, Targets } from '../targets.ts';
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
  readonly notMeasured: readonly ReadingId[];
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
  readonly readings?: readonly ReadingId[];
  readonly product?: ProductId;
  /** What the answer would be at the ends of the span; absent where it changes neither. */
  readonly effect?: {
    readonly saturationIndex: readonly [atLow: number, atHigh: number];
    readonly activeChlorine: readonly [atLow: number, atHigh: number];
  };
}

// ---- the water ----

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

// ---- the steps ----

export type StepKind =
  | 'clean'
  | 'replace-water'
  | 'raise-alkalinity'
  | 'lower-ph'
  | 'raise-ph'
  | 'aerate'
  | 'raise-chlorine'
  | 'clear-algae'
  | 'oxidise-combined'
  | 'lower-chlorine'
  | 'wait-for-chlorine'
  | 'run-chlorinator'
  | 'raise-salt'
  | 'raise-stabilizer'
  | 'raise-hardness';

export interface Amount {
  readonly product: ProductId;
  readonly form: 'liquid' | 'solid';
  /** Millilitres or grams, computed exactly. */
  readonly exact: number;
  /** What it would take if the readings' other ends were true; at least `exact`. */
  readonly upTo: number;
  readonly metric: Measure;
  readonly us: Measure;
  /** One of the equal parts it is split into. */
  readonly part: { readonly metric: Measure; readonly us: Measure };
}

export interface ProductChoice {
  readonly product: ProductId;
  readonly strength: number;
  readonly onShelf: boolean;
  readonly purpose: Purpose;
}

/** One line of the arithmetic behind an amount; each follows from those above. */
export type ArithmeticLine =
  | {
      readonly line: 'reading';
      readonly reading: ReadingId;
      readonly known: Known;
      /** The end of the span the dose is worked out for, when one reading decides it. */
      readonly used: number;
    }
  | { readonly line: 'aim'; readonly target: TargetId; readonly value: number }
  /** From the equilibrium of the easiest water the readings allow. */
  | { readonly line: 'by-equilibrium'; readonly mmolPerLitre: number }
  | { readonly line: 'by-mass'; readonly mgPerLitre: number; readonly mmolPerLitre: number }
  /** More of it, because the acid to come takes as much. */
  | { readonly line: 'for-the-acid-to-come'; readonly mmolPerLitre: number }
  /** Less of it, because the soda ash to come brings as much. */
  | { readonly line: 'from-the-soda-ash-to-come'; readonly mmolPerLitre: number }
  | { readonly line: 'volume'; readonly litres: number; readonly lowEnd: boolean }
  | {
      readonly line: 'strength';
      readonly percent: number;
      readonly mmolPerUnit: number;
      readonly form: 'liquid' | 'solid';
    }
  | { readonly line: 'amount'; readonly exact: number; readonly form: 'liquid' | 'solid' }
  | {
      readonly line: 'share';
      readonly from: number;
      readonly to: number;
      readonly fill: number;
      readonly share: number;
    }
  | { readonly line: 'goes'; readonly share: number; readonly times: number; readonly sharePerTime: number }
  | { readonly line: 'hours'; readonly grams: number; readonly gramsPerHour: number; readonly hours: number };

export type StepNote =
  /** Words of practice that belong to the step. */
  | 'remove-debris'
  | 'brush-and-vacuum'
  | 'filter-round-the-clock'
  | 'clean-filter-when-pressure-rises'
  | 'hold-until-clear'
  | 'chlorine-above-swim-limit-for-now'
  | 'for-the-stabilizer-to-come'
  | 'oxidise-common-practice'
  | 'chlorinator-off-until-salt-dissolved'
  | 'chlorinator-off-until-chlorine-falls'
  | 'sun-takes-chlorine'
  | 'thiosulfate-least-by-stoichiometry'
  | 'points-returns-up-or-fountain'
  | 'slow-hours-to-days'
  | 'alkalinity-follows-over-several-rounds'
  | 'clouding-clears'
  | 'stabilizer-takes-days-to-show'
  | 'stabilizer-lowers-ph'
  | 'stabilizer-instead-of-acid'
  | 'if-the-test-agrees'
  | 'no-backwash-while-it-dissolves'
  | 'never-empty-part-at-a-time'
  | 'retest-before-going-on'
  | 'ph-for-the-index'
  | 'adds-stabilizer'
  | 'adds-calcium'
  | 'cold-water-slows-the-cell'
  | 'unstabilised-chlorine-from-now-on';

export type ApartReason = 'acid-and-chlorine' | 'calcium-and-carbonate' | 'mix-first' | 'dissolve-first' | 'let-work';

export interface Step {
  /** Unique within the plan, and the same whenever the same step is needed: for ticking off. */
  readonly id: string;
  readonly kind: StepKind;
  readonly choice?: ProductChoice;
  readonly amount?: Amount;
  /** The amount is split into so many equal parts. */
  readonly parts: number;
  readonly hoursBetweenParts: number;
  /** For replacing water: share of the pool at a time, how often, litres at a time, and centimetres of level. */
  readonly replace?: {
    readonly sharePerTime: number;
    readonly times: number;
    readonly litresPerTime: number;
    readonly centimetresPerTime: number | null;
  };
  readonly toPh?: number;
  readonly hours?: number;
  readonly how: HowCode | null;
  readonly circulateMinutes: number;
  /** Since the step before. */
  readonly waitFirst: { readonly hours: number; readonly reason: ApartReason } | null;
  readonly notes: readonly StepNote[];
  readonly cautions: readonly CautionCode[];
  readonly after: PredictedWater;
  readonly why: readonly ArithmeticLine[];
}

// ---- what isn't dosed ----

export type HoldReason =
  | 'straddles'
  | 'not-measured'
  | 'strip-unreliable-at-high-chlorine'
  | 'off-scale'
  | 'both-chlorines-needed'
  | 'after-dilution';
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
  readonly reading: ReadingId;
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

export type PlanIssueCode =
  | 'input'
  | 'total-below-free'
  | 'alkalinity-too-low-for-ph'
  | 'ph-too-low-for-alkalinity'
  | 'calcium-above-total'
  | 'too-concentrated';

export interface PlanIssue extends InputIssue {
  readonly code: PlanIssueCode;
}

export type PlanOutcome =
  { readonly ok: true; readonly plan: Plan } | { readonly ok: false; readonly issues: readonly PlanIssue[] };
