/** Chlorine from the cell, for today: only where salt and warmth let it run. */
import { hoursToRaise, type Cell } from '../../../pool/chlorinator.ts';
import { electrolyse } from '../../moves/chlorine.ts';
import type { Water } from '../../water.ts';
import { mapCases, type Cases } from '../cases.ts';
import type { Context, Draft } from '../draft.ts';
import { spanIn } from '../predicted.ts';
import type { Known } from '../spanned.ts';
import type { Goal } from './chlorine.ts';

/** Longer than this is no rise for now, h. */
const LONGEST_RUN = 24;
/** What takes longer than a working day is done with the bottle where there is one, h. Common practice, no source. */
const LONGEST_BESIDE_A_BOTTLE = 8;
/** °C; below, many cells switch off to spare their plates. Common practice, no source: the unit's manual has its own. */
export const COLD_FOR_CELLS = 15;

/** What keeps a cell from running in the water as the steps before leave it. */
export function cellStop({ input, known, targets }: Context, cases: Cases): 'salt-low' | 'cold' | null {
  if (input.pool.chlorination !== 'chlorinator') return null;
  if (known.salt.from !== 'assumed' && spanIn(cases, 'salt').value < targets.salt.low) return 'salt-low';
  if (known.temperature.from !== 'assumed' && known.temperature.value < COLD_FOR_CELLS) return 'cold';
  return null;
}

/**
 * Without a bottle on the shelf, a chlorinator that can do it within the day does it. Combined chlorine that is only
 * somewhat high is its work even beside a bottle.
 * @param withinBand how much of a rise the pH bears
 */
export function chlorinatorRun(
  context: Context,
  cases: Cases,
  free: Known,
  goal: Goal,
  withinBand: (milligrams: number, chlorinate: (water: Water, milligrams: number) => Water) => number,
): Draft | null {
  const { input, volume } = context;
  const { cell: given, chlorination } = input.pool;
  if (chlorination !== 'chlorinator' || !given || goal.kind === 'clear-algae' || cellStop(context, cases)) return null;
  const cell: Cell = { ...given, setting: 1 };
  const milligrams = withinBand(goal.to - free.high, electrolyse);
  const hours = hoursToRaise(volume.low, milligrams, cell);
  const longest = !hasBottle(context) ? LONGEST_RUN : goal.kind === 'raise-chlorine' ? 0 : LONGEST_BESIDE_A_BOTTLE;
  if (hours > longest) return null;
  return {
    id: 'run-chlorinator',
    kind: 'run-chlorinator',
    moves: ['free-chlorine', ...(goal.kind === 'oxidise-combined' ? (['total-chlorine'] as const) : [])],
    apply: (state) =>
      mapCases(state, ({ water, volumeLitres }) => electrolyse(water, (milligrams * volume.low) / volumeLitres)),
    parts: 1,
    hours,
    how: null,
    circulateMinutes: Math.ceil(60 * hours),
    notes: goal.notes,
    cautions: ['feed-stops-with-pump'],
    why: [
      { line: 'reading', reading: 'free-chlorine', known: free, used: free.high },
      { line: 'aim', target: 'free-chlorine', value: goal.to },
      { line: 'volume', litres: volume.low, lowEnd: volume.low < volume.value },
      { line: 'hours', grams: (milligrams * volume.low) / 1000, gramsPerHour: cell.gramsPerHour, hours },
    ],
  };
}

function hasBottle({ input }: Context): boolean {
  const bottles = ['sodium-hypochlorite', 'household-bleach', 'calcium-hypochlorite'];
  return input.shelf.some(({ product }) => bottles.includes(product));
}
