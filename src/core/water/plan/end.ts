/** Where the plan leaves the water against its targets, and why it is not in them where it is not. */
import { CHLORINE_LIMIT, TARGET_IDS, type TargetId } from '../targets.ts';
import type { Context, Draft } from './draft.ts';
import { isInside } from './span.ts';
import type { PredictedWater, Span, SpannedReading } from './spanned.ts';
import type { StepKind } from './step.ts';
import type { EndCheck, Hold, OutsideReason } from './types.ts';

const READING: Record<Exclude<TargetId, 'saturation-index'>, SpannedReading> = {
  'free-chlorine': 'freeChlorine',
  'combined-chlorine': 'combinedChlorine',
  ph: 'ph',
  'total-alkalinity': 'totalAlkalinity',
  'calcium-hardness': 'calciumHardness',
  'cyanuric-acid': 'cyanuricAcid',
  salt: 'salt',
};

export interface Ended {
  readonly context: Context;
  readonly end: PredictedWater;
  readonly drafts: readonly Draft[];
  readonly holds: readonly Hold[];
  /** The saturation index just before chlorine is added; null where none is. */
  readonly beforeChlorine: Span | null;
}

export function endChecks(ended: Ended): EndCheck[] {
  const checks = TARGET_IDS.map((target) => check(ended, target));
  return checks.map((one) =>
    one.target === 'saturation-index' && !one.inside && one.why === null
      ? { ...one, why: indexReason(ended, checks) }
      : one,
  );
}

export function spanOfTarget(end: PredictedWater, target: TargetId): Span {
  return target === 'saturation-index' ? end.saturationIndex : end.spans[READING[target]];
}

function check(ended: Ended, target: TargetId): EndCheck {
  const span = spanOfTarget(ended.end, target);
  if (target === 'combined-chlorine' && !ended.context.known[target]) {
    return { target, span, inside: false, why: 'not-measured' };
  }
  if (
    target !== 'saturation-index' &&
    target !== 'combined-chlorine' &&
    ended.context.known[target].from === 'assumed'
  ) {
    return { target, span, inside: false, why: 'not-measured' };
  }
  const inside = isInside(span.value, ended.context.targets[target]);
  if (target === 'saturation-index' && isGuessed(ended)) return { target, span, inside: false, why: 'not-measured' };
  return { target, span, inside, why: inside || target === 'saturation-index' ? null : reason(ended, target, span) };
}

/** An index that rests on an assumed reading doesn't count as inside its target. */
function isGuessed({ context: { known } }: Ended): boolean {
  return (['ph', 'total-alkalinity', 'calcium-hardness', 'temperature'] as const).some(
    (id) => known[id].from === 'assumed',
  );
}

function reason(ended: Ended, target: Exclude<TargetId, 'saturation-index'>, span: Span): OutsideReason {
  const { context, drafts, holds } = ended;
  const { targets } = context;
  if (holds.some((hold) => hold.target === target)) return 'held-for-retest';
  const heldAll = ['after-dilution', 'strip-unreliable-at-high-chlorine'];
  if (target !== 'free-chlorine' && holds.some((hold) => heldAll.includes(hold.reason))) return 'held-for-retest';
  const has = (...kinds: StepKind[]) => drafts.some(({ kind }) => kinds.includes(kind));
  const isHigh = span.value > targets[target].high;
  const meant = drafts.some(({ moves, id }) => moves.includes(target as Draft['moves'][number]) && id !== 'aerate');
  switch (target) {
    case 'ph':
      if (isHigh && has('raise-chlorine', 'clear-algae', 'oxidise-combined', 'run-chlorinator'))
        return 'lifted-by-chlorine';
      if (!isHigh && ended.end.saturationIndex.value > targets['saturation-index'].high - 0.1)
        return 'kept-low-for-the-index';
      break;
    case 'free-chlorine':
      if (has('clear-algae', 'oxidise-combined')) return 'raised-on-purpose';
      if (isHigh) return 'falls-by-itself';
      if (targets[target].low > CHLORINE_LIMIT) return 'no-level-fits-the-stabilizer';
      break;
    case 'combined-chlorine':
      return 'goes-on-after-retest';
    case 'total-alkalinity':
      if (isHigh) {
        const goesOn = drafts.some(({ round }) => round !== undefined) || span.low > targets[target].limit;
        return goesOn ? 'goes-on-after-retest' : 'comes-down-with-acid';
      }
      break;
    case 'calcium-hardness':
      if (isHigh && !has('replace-water')) return 'kept-by-ph-instead';
      if (isHigh) return 'leaves-only-with-water';
      break;
    case 'salt':
      if (isHigh) return 'leaves-only-with-water';
      break;
    case 'cyanuric-acid':
      if (isHigh) return 'leaves-only-with-water';
      if (comesWithChlorine(context)) return 'comes-with-the-chlorine';
      break;
    default:
  }
  if (!meant) return 'too-little-to-measure';
  return doseFor(target, isHigh).some((kind) => has(kind)) ? 'dosed-for-cautious-end' : 'moved-by-another-step';
}

/** The steps that are meant to bring the reading up, or down. */
function doseFor(target: TargetId, isHigh: boolean): StepKind[] {
  switch (target) {
    case 'ph':
      return isHigh ? ['lower-ph'] : ['raise-ph', 'aerate'];
    case 'total-alkalinity':
      return ['raise-alkalinity', 'raise-ph'];
    case 'free-chlorine':
      return ['raise-chlorine', 'run-chlorinator'];
    case 'calcium-hardness':
      return ['raise-hardness'];
    case 'salt':
      return ['raise-salt'];
    default:
      return ['raise-stabilizer', 'replace-water'];
  }
}

function comesWithChlorine({ input }: Context): boolean {
  return input.pool.chlorination === 'trichlor' || input.pool.chlorination === 'dichlor';
}

/** The index follows from the others: if one of them is out or unknown, that one comes first. */
function indexReason({ context, holds, beforeChlorine }: Ended, checks: readonly EndCheck[]): OutsideReason {
  const made: readonly TargetId[] = ['ph', 'total-alkalinity', 'calcium-hardness'];
  if (holds.some(({ target }) => made.includes(target))) return 'held-for-retest';
  const { high } = context.targets['saturation-index'];
  const index = checks.find(({ target }) => target === 'saturation-index')!;
  const crosses = (end: 'value' | 'low') => index.span[end] > high && (beforeChlorine?.[end] ?? Infinity) <= high;
  if (crosses('value') || crosses('low')) return 'lifted-by-chlorine';
  const out = checks.find(({ target, inside }) => made.includes(target) && !inside);
  return out?.why ?? 'dosed-for-cautious-end';
}
