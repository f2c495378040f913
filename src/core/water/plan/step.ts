/** A step of a plan: what is done, how much of what, and the arithmetic behind it. */
import type { QuantityId } from '../../measurement/quantities.ts';
import type { CautionCode } from '../cautions.ts';
import type { Measure } from '../measure.ts';
import type { HowCode, ProductId, Purpose } from '../products.ts';
import type { TargetId } from '../targets.ts';
import type { Known, PredictedWater } from './spanned.ts';

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
  | 'raise-hardness'
  | 'look-for-scale';

export interface Amount {
  readonly product: ProductId;
  readonly form: 'liquid' | 'solid';
  /** Millilitres or grams, computed exactly. */
  readonly exact: number;
  /** What it would take if the readings' other ends were true; at least `exact`. */
  readonly upTo: number;
  /** What leaves that room: the readings, or how far the product's reaction goes. */
  readonly rangeFrom: 'readings' | 'reaction';
  readonly metric: Measure;
  readonly us: Measure;
  /** One of the equal parts it is split into. */
  readonly part: { readonly metric: Measure; readonly us: Measure };
  /** How one part goes into water first: grams to a bucket of 10 litres, and how many such buckets. */
  readonly buckets: { readonly gramsEach: number; readonly count: number } | null;
  /** What it costs at the price that was given; null without one. */
  readonly cost: number | null;
}

export interface ProductChoice {
  readonly product: ProductId;
  readonly strength: number;
  readonly onShelf: boolean;
  readonly purpose: Purpose;
  /** Of liquid chlorine, where the label says. */
  readonly basis?: 'by-weight' | 'by-volume';
  /** Share of its strength that is left: by its age, or as the logbook has learnt it. */
  readonly left?: number;
  readonly isLearnt?: boolean;
  /** Of a litre or a kilogram, in the owner's own money. */
  readonly price?: number;
}

/** One line of the arithmetic behind an amount; each follows from those above. */
export type ArithmeticLine =
  | {
      readonly line: 'reading';
      readonly reading: QuantityId;
      readonly known: Known;
      /** The end of the span the dose is worked out for, when one reading decides it. */
      readonly used: number;
    }
  | { readonly line: 'aim'; readonly target: TargetId; readonly value: number }
  /** From the equilibrium of the easiest water the readings allow. */
  | { readonly line: 'by-equilibrium'; readonly mmolPerLitre: number }
  | { readonly line: 'by-mass'; readonly mgPerLitre: number; readonly mmolPerLitre: number }
  /** Stopped short of the aim: hypochlorite lifts the pH until it is used up. */
  | { readonly line: 'as-the-ph-bears'; readonly reached: number; readonly ph: number }
  /** Stopped short of the aim: more would make the water scale. */
  | { readonly line: 'as-the-index-bears'; readonly index: number }
  /** More of it, because the acid to come takes as much. */
  | { readonly line: 'for-the-acid-to-come'; readonly mmolPerLitre: number }
  /** Less of it, because the soda ash to come brings as much. */
  | { readonly line: 'from-the-soda-ash-to-come'; readonly mmolPerLitre: number }
  | { readonly line: 'volume'; readonly litres: number; readonly lowEnd: boolean }
  | {
      readonly line: 'strength';
      readonly percent: number;
      readonly mmolPerUnit: number;
      readonly basis?: 'by-weight' | 'by-volume';
      readonly left?: number;
      readonly isLearnt?: boolean;
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
  | 'dilution-helps'
  | 'as-much-as-the-ph-bears'
  | 'oxidise-common-practice'
  | 'oxidise-capped'
  | 'repeat-until-it-holds'
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
  | 'pump-off-below-the-skimmer'
  | 'optional-without-plaster'
  | 'retest-before-going-on'
  | 'ph-for-the-index'
  | 'adds-stabilizer'
  | 'adds-calcium'
  | 'unstabilised-chlorine-from-now-on'
  | 'look-at-the-cell'
  | 'look-at-the-heater'
  | 'look-at-the-waterline'
  | 'dilution-offered';

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
  /** Fresh water that would help and isn't prescribed: share of the pool, in all, and the calcium it leads to. */
  readonly offer?: { readonly share: number; readonly litres: number; readonly toCalcium: number };
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
