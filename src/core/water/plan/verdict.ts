/** Whether anything measured speaks against swimming; said before anything else. */
import { QUANTITY_IDS, type QuantityId } from '../../measurement/quantities.ts';
import type { PlanInput } from '../../pool/schema.ts';
import { CHLORINE_LIMIT, CYA_PER_CHLORINE, type Targets } from '../targets.ts';
import type { KnownWater } from './known.ts';
import { EPSILON, judge } from './span.ts';
import type { Known } from './spanned.ts';
import type { Verdict, VerdictReason } from './types.ts';

/** Outside this, people stay out until it is corrected. Common practice, no source. */
export const SWIM_PH = { low: 7, high: 8.2 } as const;
/** What codes ask for: CDC Model Aquatic Health Code 2018, read in the trade press. */
const CODE_PH = { low: 7.2, high: 7.8 } as const;
/** Least free chlorine: CDC Model Aquatic Health Code 2018, read in a trade report. */
const LEAST_CHLORINE = { bare: 1, stabilised: 2 } as const;
/** °C; Administrative Rules of Montana 37.115.1308, hot tubs. */
const HOTTEST_C = 40;

const STAY_OUT: ReadonlySet<VerdictReason> = new Set([
  'bottom-not-visible',
  'green-water',
  'chlorine-too-low',
  'chlorine-above-limit',
  'ph-too-low',
  'ph-too-high',
  'combined-too-high',
  'too-hot',
]);
const CORRECT_FIRST: ReadonlySet<VerdictReason> = new Set(['chlorine-low-for-stabilizer', 'ph-outside-code']);

export function verdict(input: PlanInput, known: KnownWater, targets: Targets): Verdict {
  const reasons = [
    ...lookReasons(input),
    ...chlorineReasons(known),
    ...phReasons(known.ph),
    ...combinedReasons(known['combined-chlorine'], targets),
    ...(known.temperature.from === 'measured' && known.temperature.low > HOTTEST_C ? (['too-hot'] as const) : []),
  ];
  const swim = swimOf(reasons);
  return {
    swim,
    reasons,
    notMeasured: notMeasured(input),
    onlyIfBottomVisible: input.look.bottomVisible === undefined && swim !== 'stay-out',
  };
}

function swimOf(reasons: readonly VerdictReason[]): Verdict['swim'] {
  if (reasons.some((reason) => STAY_OUT.has(reason))) return 'stay-out';
  if (reasons.some((reason) => CORRECT_FIRST.has(reason))) return 'correct-first';
  return reasons.length > 0 ? 'cannot-say' : 'no-objection';
}

function lookReasons({ look }: PlanInput): VerdictReason[] {
  const reasons: VerdictReason[] = [];
  if (look.bottomVisible === false) reasons.push('bottom-not-visible');
  if (look.water === 'green') reasons.push('green-water');
  if (look.water === 'cloudy' && look.bottomVisible !== false) reasons.push('cloudy-water');
  return reasons;
}

function chlorineReasons(known: KnownWater): VerdictReason[] {
  const free = known['free-chlorine'];
  const stabilizer = known['cyanuric-acid'];
  if (free.from === 'assumed') return ['chlorine-not-measured'];
  const least = stabilizer.value > 0 ? LEAST_CHLORINE.stabilised : LEAST_CHLORINE.bare;
  if (free.open === 'above' && free.low >= CHLORINE_LIMIT) return ['chlorine-above-limit'];
  switch (judge(free, { low: least, high: CHLORINE_LIMIT })) {
    case 'low':
      return ['chlorine-too-low'];
    case 'high':
      return ['chlorine-above-limit'];
    case 'maybe-low':
    case 'maybe-either':
      return ['chlorine-maybe-low'];
    case 'maybe-high':
      return ['chlorine-maybe-above-limit'];
    default: {
      const scarce = stabilizer.from === 'measured' && free.value * CYA_PER_CHLORINE < stabilizer.value - EPSILON;
      return scarce ? ['chlorine-low-for-stabilizer'] : [];
    }
  }
}

function phReasons(ph: Known): VerdictReason[] {
  if (ph.from === 'assumed') return ['ph-not-measured'];
  switch (judge(ph, SWIM_PH)) {
    case 'low':
      return ['ph-too-low'];
    case 'high':
      return ['ph-too-high'];
    case 'in-range': {
      const judgement = judge(ph, CODE_PH);
      return judgement === 'low' || judgement === 'high' ? ['ph-outside-code'] : [];
    }
    default:
      return ['ph-maybe-outside'];
  }
}

function combinedReasons(combined: Known | null, targets: Targets): VerdictReason[] {
  if (!combined) return [];
  switch (judge(combined, targets['combined-chlorine'])) {
    case 'high':
      return ['combined-too-high'];
    case 'maybe-high':
      // The difference of two strip pads is poor; only a likely excess is worth a word.
      return combined.value > targets['combined-chlorine'].high ? ['combined-maybe-high'] : [];
    default:
      return [];
  }
}

function notMeasured({ readings }: PlanInput): QuantityId[] {
  return QUANTITY_IDS.filter((id) => {
    if (readings[id]) return false;
    if (id === 'total-hardness') return !readings['calcium-hardness'];
    if (id === 'calcium-hardness') return readings['total-hardness'] !== undefined;
    return id !== 'boron';
  });
}
