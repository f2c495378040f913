/** What to test again, and when. Waiting times: common practice, no source. */
import type { QuantityId } from '../../measurement/quantities.ts';
import { ROUTINE_DAYS, SHOWS_AFTER_HOURS, SPA_ROUTINE_DAYS } from '../../pool/test-times.ts';
import type { TargetId } from '../targets.ts';
import type { Context, Draft } from './draft.ts';
import type { StepKind } from './step.ts';
import type { Hold, HoldRemedy, Retest } from './types.ts';

/** Until it is worth looking whether sunlight has taken enough chlorine. */
const CHLORINE_FALLS = 24;

/** What is tested as a routine, in the order of its weight. */
const ROUTINE: readonly QuantityId[] = ['free-chlorine', 'ph', 'total-alkalinity', 'calcium-hardness', 'cyanuric-acid'];

/**
 * A reading that is held is asked for now; what a dose moves is asked for again afterwards, held or not.
 * @param bleaches whether the plan leaves more chlorine than the pads for pH can stand
 */
export function retestsOf(
  context: Context,
  drafts: readonly Draft[],
  holds: readonly Hold[],
  bleaches: boolean,
): Retest[] {
  const held = heldTests(context, drafts, holds);
  const after = testsAfter(context, drafts);
  const ph = after.get('ph');
  if (bleaches && ph) after.set('ph', { ...ph, remedy: 'wait-for-chlorine' });
  const none = held.size === 0 && after.size === 0;
  const all = [...held.values(), ...after.values(), ...(none ? routineOf(context) : [])];
  return all.sort((a, b) => a.afterHours - b.afterHours);
}

function heldTests(context: Context, drafts: readonly Draft[], holds: readonly Hold[]): Map<QuantityId, Retest> {
  const found = new Map<QuantityId, Retest>();
  const diluted = drafts.some(({ kind }) => kind === 'replace-water') ? context.turnoverHours : 0;
  for (const { target, remedy } of holds) {
    const afterHours = WAITS_FOR_CHLORINE.has(remedy) ? CHLORINE_FALLS : diluted;
    for (const reading of readingsOf(context, target)) {
      if (!found.has(reading)) found.set(reading, { reading, afterHours, reason: 'held', remedy });
    }
  }
  return found;
}

const WAITS_FOR_CHLORINE: ReadonlySet<HoldRemedy> = new Set(['wait-for-chlorine', 'once-chlorine-holds']);

function testsAfter(context: Context, drafts: readonly Draft[]): Map<QuantityId, Retest> {
  const found = new Map<QuantityId, Retest>();
  const add = (retest: Retest) => {
    const before = found.get(retest.reading);
    if (!before || before.afterHours < retest.afterHours) found.set(retest.reading, retest);
  };
  for (const { moves, kind } of drafts) {
    for (const moved of moves) add(testAfter(context, inWords(context, moved), kind));
  }
  // Whoever doses for one of the two that decide about swimming looks at both again.
  if (drafts.some(({ kind }) => kind !== 'clean' && kind !== 'look-for-scale')) {
    const doses = (['free-chlorine', 'ph'] as const).filter((reading) => !found.has(reading));
    for (const reading of doses) {
      const other = found.get(reading === 'ph' ? 'free-chlorine' : 'ph');
      const afterHours = Math.max(SHOWS_AFTER_HOURS[reading], other?.afterHours ?? 0);
      add({ reading, afterHours, reason: 'before-swimming', remedy: null });
    }
  }
  return found;
}

function testAfter({ turnoverHours }: Context, reading: QuantityId, kind: StepKind): Retest {
  if (kind === 'replace-water') return { reading, afterHours: turnoverHours, reason: 'after-dilution', remedy: null };
  const mixing = reading === 'free-chlorine' ? 0 : turnoverHours;
  const falls = kind === 'wait-for-chlorine' ? CHLORINE_FALLS : 0;
  const afterHours = Math.max(SHOWS_AFTER_HOURS[reading], mixing, falls);
  const isSlow = SHOWS_AFTER_HOURS[reading] >= 24;
  const reason = falls > 0 ? 'once-fallen' : isSlow ? 'slow-to-show' : 'after-dose';
  return { reading, afterHours, reason, remedy: null };
}

function routineOf({ input }: Context): Retest[] {
  const readings = input.pool.chlorination === 'chlorinator' ? [...ROUTINE, 'salt' as const] : ROUTINE;
  const days = input.pool.kind === 'spa' ? { ...ROUTINE_DAYS, ...SPA_ROUTINE_DAYS } : ROUTINE_DAYS;
  return readings.map((reading) => {
    const rule = 24 * days[reading];
    const hours = input.testHours?.[reading] ?? rule;
    return { reading, afterHours: Math.min(hours, rule), reason: hours < rule ? 'may-leave' : 'routine', remedy: null };
  });
}

/** A pool that reads total hardness keeps reading it. */
function inWords({ input }: Context, reading: QuantityId): QuantityId {
  return reading === 'calcium-hardness' && !input.readings['calcium-hardness'] && input.readings['total-hardness']
    ? 'total-hardness'
    : reading;
}

function readingsOf(context: Context, target: TargetId): QuantityId[] {
  switch (target) {
    case 'combined-chlorine':
      return ['free-chlorine', 'total-chlorine'];
    case 'saturation-index':
      return [];
    default:
      return [inWords(context, target)];
  }
}
