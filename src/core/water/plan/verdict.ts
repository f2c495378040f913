/** Whether anything measured speaks against swimming; said before anything else. */
import { QUANTITY_IDS, type QuantityId } from '../../measurement/quantities.ts';
import type { PlanInput } from '../../pool/schema.ts';
import { CHLORINE_LIMIT, CYA_PER_CHLORINE, labelLimit, type Targets, targetsFor } from '../targets.ts';
import { withKind } from './kind.ts';
import { type KnownWater, knownWater } from './known.ts';
import { EPSILON, judge } from './span.ts';
import type { Known } from './spanned.ts';
import type { Verdict, VerdictReason } from './types.ts';

/**
 * Outside this, people stay out. Above: CDC Model Aquatic Health Code 6.6.3.1, read (cmahc.org section 2340), which
 * closes only below 6.5; below 7.0 skin and metal suffer: common practice, no source.
 */
export const SWIM_PH = { low: 7, high: 8 } as const;
/** What the CDC asks of pools: 7.0 to 7.8, read (Operating and Managing Public Pools, Hot Tubs and Splash Pads). */
const CODE_PH_HIGH = 7.8;
/**
 * Least free chlorine: CDC Model Aquatic Health Code 2018, read in a trade report; for spas CDC healthy-swimming
 * advice, read as quoted.
 */
const MIN_CHLORINE = { bare: 1, stabilised: 2, spa: 3 } as const;
/** °C; Administrative Rules of Montana 37.115.1308, hot tubs. */
const HOTTEST_C = 40;
/** °C; below it water counts as cold: Royal National Lifeboat Institution, read as quoted by several safety pages. */
export const COLD_C = 15;
/** mg/L; the pool is put right first. Common practice, no source. */
const COMBINED_CLOSES = 1;

const STAY_OUT: ReadonlySet<VerdictReason> = new Set([
  'bottom-not-visible',
  'green-water',
  'chlorine-too-low',
  'chlorine-above-limit',
  'ph-too-low',
  'ph-too-high',
  'too-hot',
]);
const CORRECT_FIRST: ReadonlySet<VerdictReason> = new Set([
  'chlorine-low-for-stabilizer',
  'ph-outside-code',
  'combined-too-high',
]);
/** Closes no pool, but is told. */
const WITH_CARE: ReadonlySet<VerdictReason> = new Set(['chlorine-above-label', 'combined-above-target', 'cold-water']);

/** Without the plan: what these readings say about swimming, as the plan made from them says it. */
export function swimVerdict(given: PlanInput): Verdict {
  const input = withKind(given);
  const { known } = knownWater(input);
  return verdict(input, known, targetsFor(input.pool, known['cyanuric-acid'].value, input.targets));
}

export function verdict(input: PlanInput, known: KnownWater, targets: Targets): Verdict {
  const found = [
    ...lookReasons(input),
    ...chlorineReasons(input, known),
    ...phReasons(known.ph),
    ...combinedReasons(known, targets),
    ...temperatureReasons(known.temperature),
  ];
  // What closes the pool is said first.
  const reasons = found.sort((a, b) => weight(a) - weight(b));
  const swim = swimOf(reasons);
  return {
    swim,
    reasons,
    notMeasured: notMeasured(input),
    onlyIfBottomVisible: input.look.bottomVisible === undefined && swim !== 'stay-out',
  };
}

function weight(reason: VerdictReason): number {
  if (STAY_OUT.has(reason)) return 0;
  if (CORRECT_FIRST.has(reason)) return 1;
  return WITH_CARE.has(reason) ? 3 : 2;
}

function swimOf(reasons: readonly VerdictReason[]): Verdict['swim'] {
  if (reasons.some((reason) => STAY_OUT.has(reason))) return 'stay-out';
  if (reasons.some((reason) => CORRECT_FIRST.has(reason))) return 'correct-first';
  if (reasons.some((reason) => !WITH_CARE.has(reason))) return 'cannot-say';
  return reasons.length > 0 ? 'with-care' : 'no-objection';
}

function lookReasons({ look }: PlanInput): VerdictReason[] {
  const reasons: VerdictReason[] = [];
  if (look.bottomVisible === false) reasons.push('bottom-not-visible');
  if (look.water === 'green') reasons.push('green-water');
  if (look.water === 'cloudy' && look.bottomVisible !== false) reasons.push('cloudy-water');
  return reasons;
}

function chlorineReasons(input: PlanInput, known: KnownWater): VerdictReason[] {
  const free = known['free-chlorine'];
  if (free.from === 'assumed') return ['chlorine-not-measured'];
  const least = minChlorine(input, known);
  if (free.low > CHLORINE_LIMIT + EPSILON || (free.open === 'above' && free.low >= CHLORINE_LIMIT)) {
    return ['chlorine-above-limit'];
  }
  if (free.high < least - EPSILON) return ['chlorine-too-low'];
  if (free.low < least - EPSILON) return ['chlorine-maybe-low'];
  const reasons = stabilizerReasons(input, known);
  // A limit that is reached is no longer kept for certain.
  if (free.open === 'above' || free.high >= CHLORINE_LIMIT - EPSILON) reasons.push('chlorine-maybe-above-limit');
  else if (free.high > labelLimit(input) + EPSILON) reasons.push('chlorine-above-label');
  return reasons;
}

function minChlorine({ pool }: PlanInput, known: KnownWater): number {
  if (pool.kind === 'spa') return MIN_CHLORINE.spa;
  return known['cyanuric-acid'].value > 0 ? MIN_CHLORINE.stabilised : MIN_CHLORINE.bare;
}

/** Enough chlorine for the stabilizer there is, or may be. */
function stabilizerReasons({ pool }: PlanInput, known: KnownWater): VerdictReason[] {
  const { 'free-chlorine': free, 'cyanuric-acid': stabilizer } = known;
  const isMeasured = stabilizer.from !== 'assumed';
  // Where the owner keeps no stabilizer and hasn't looked for any, the owner's word is taken for it.
  if (!isMeasured && !pool.stabilised) return [];
  if (isMeasured && free.value * CYA_PER_CHLORINE < stabilizer.value - EPSILON) return ['chlorine-low-for-stabilizer'];
  const isEnough = free.low * CYA_PER_CHLORINE >= stabilizer.high - EPSILON && stabilizer.open !== 'above';
  if (isEnough) return [];
  return [isMeasured ? 'chlorine-maybe-low-for-stabilizer' : 'stabilizer-not-measured'];
}

function phReasons(ph: Known): VerdictReason[] {
  if (ph.from === 'assumed') return ['ph-not-measured'];
  const judgement = judge(ph, SWIM_PH);
  if (judgement === 'low') return ['ph-too-low'];
  if (judgement === 'high') return ['ph-too-high'];
  const reasons: VerdictReason[] = ph.low > CODE_PH_HIGH + EPSILON ? ['ph-outside-code'] : [];
  if (judgement !== 'in-range' || ph.open !== null) return [...reasons, 'ph-maybe-outside'];
  return reasons.length === 0 && ph.high > CODE_PH_HIGH + EPSILON ? ['ph-maybe-above-code'] : reasons;
}

function combinedReasons(known: KnownWater, targets: Targets): VerdictReason[] {
  const { 'combined-chlorine': combined, 'total-chlorine': total, 'free-chlorine': free } = known;
  if (!combined || !total) return [];
  // Of two errors that have nothing to do with each other the squares add up.
  const low = combined.value - Math.hypot(total.value - total.low, free.high - free.value);
  const high = combined.value + Math.hypot(total.high - total.value, free.value - free.low);
  if (low > COMBINED_CLOSES + EPSILON) return ['combined-too-high'];
  if (high > COMBINED_CLOSES + EPSILON || total.open === 'above') return ['combined-maybe-high'];
  return low > targets['combined-chlorine'].high + EPSILON ? ['combined-above-target'] : [];
}

function temperatureReasons({ from, value, high, open }: Known): VerdictReason[] {
  if (from === 'assumed') return [];
  if (value > HOTTEST_C + EPSILON) return ['too-hot'];
  if (high > HOTTEST_C + EPSILON || open === 'above') return ['maybe-too-hot'];
  return value < COLD_C ? ['cold-water'] : [];
}

function notMeasured({ readings }: PlanInput): QuantityId[] {
  return QUANTITY_IDS.filter((id) => {
    if (readings[id]) return false;
    if (id === 'total-hardness') return !readings['calcium-hardness'];
    if (id === 'calcium-hardness') return readings['total-hardness'] !== undefined;
    return id !== 'boron';
  });
}
