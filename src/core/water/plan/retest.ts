/** What to test again, and when. Waiting times: common practice, no source. */
import type { QuantityId } from '../../measurement/quantities.ts';
import type { TargetId } from '../targets.ts';
import type { Context, Draft } from './draft.ts';
import type { Hold, Retest } from './types.ts';

/** Hours until an addition shows in a test; at least one turnover for what must mix through. */
export const SHOWS_AFTER: Record<QuantityId, number> = {
  'free-chlorine': 1,
  'total-chlorine': 1,
  ph: 4,
  'total-alkalinity': 4,
  'total-hardness': 12,
  'calcium-hardness': 12,
  'cyanuric-acid': 7 * 24,
  salt: 24,
  boron: 24,
  temperature: 0,
};

/** Until it is worth looking whether sunlight has taken enough chlorine. */
const CHLORINE_FALLS = 24;

const ROUTINE: readonly (readonly [QuantityId, number])[] = [
  ['free-chlorine', 2 * 24],
  ['ph', 2 * 24],
  ['total-alkalinity', 7 * 24],
  ['calcium-hardness', 30 * 24],
  ['cyanuric-acid', 30 * 24],
];

/** @param bleaches whether the plan leaves more chlorine than the pads for pH can stand */
export function retestsOf(
  context: Context,
  drafts: readonly Draft[],
  holds: readonly Hold[],
  bleaches: boolean,
): Retest[] {
  const found = new Map<QuantityId, Retest>();
  const add = (retest: Retest) => {
    const before = found.get(retest.reading);
    if (!before || (before.reason !== 'held' && before.afterHours < retest.afterHours))
      found.set(retest.reading, retest);
  };
  const diluted = drafts.some(({ kind }) => kind === 'replace-water') ? context.turnoverHours : 0;
  for (const { target, remedy } of holds) {
    const afterHours = remedy === 'wait-for-chlorine' ? CHLORINE_FALLS : diluted;
    for (const reading of readingsOf(context, target)) add({ reading, afterHours, reason: 'held', remedy });
  }
  for (const { moves, kind } of drafts) {
    for (const moved of moves) {
      const mixing = moved === 'free-chlorine' ? 0 : context.turnoverHours;
      const isDilution = kind === 'replace-water';
      const falls = kind === 'wait-for-chlorine' ? CHLORINE_FALLS : 0;
      const afterHours = isDilution ? context.turnoverHours : Math.max(SHOWS_AFTER[moved], mixing, falls);
      const slow = !isDilution && SHOWS_AFTER[moved] >= 24;
      add({
        reading: inWords(context, moved),
        afterHours,
        reason: isDilution ? 'after-dilution' : falls > 0 ? 'once-fallen' : slow ? 'slow-to-show' : 'after-dose',
        remedy: null,
      });
    }
  }
  if (bleaches) {
    const ph = found.get('ph');
    if (ph) found.set('ph', { ...ph, remedy: 'wait-for-chlorine' });
  }
  const swim = (['free-chlorine', 'ph'] as const).filter((reading) => drafts.length > 0 && !found.has(reading));
  for (const reading of swim) add({ reading, afterHours: 1, reason: 'before-swimming', remedy: null });
  if (found.size === 0) {
    for (const [reading, afterHours] of routineOf(context))
      add({ reading, afterHours, reason: 'routine', remedy: null });
  }
  return [...found.values()].sort((a, b) => a.afterHours - b.afterHours);
}

function routineOf({ input }: Context): (readonly [QuantityId, number])[] {
  const salt: (readonly [QuantityId, number])[] = input.pool.chlorination === 'chlorinator' ? [['salt', 14 * 24]] : [];
  return [...ROUTINE, ...salt];
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
