/** What pH to steer for, so that the water ends up neither scaling nor etching. */
import type { Cases } from '../cases.ts';
import type { Context } from '../draft.ts';
import type { Water } from '../../water.ts';
import { indexOf } from '../predicted.ts';

export interface PhAim {
  readonly ph: number;
  /** Moved away from the usual aim for the saturation index. */
  readonly forIndex: boolean;
}

/** Left to the upper end of the target, because pH drifts up. Common practice, no source. */
const ROOM_ABOVE = 0.2;
/** Inside the index's target, so that it doesn't lie right on the edge. */
const MARGIN = 0.02;

/**
 * @param cases the water with everything else already added
 * @param alkalinity what it will likely be
 * @param chlorinated adds the chlorine to come, whose lift the upper end of the index has to bear
 */
export function phAim(
  { input, known, targets }: Context,
  cases: Cases,
  alkalinity: number,
  chlorinated: (cases: Cases) => Cases,
): PhAim {
  const { ph, 'saturation-index': index } = targets;
  // The hypochlorite against algae lifts the pH, and works best where it is low.
  if (input.look.water === 'green') return { ph: ph.low, forIndex: false };
  const usual = { ph: ph.aim, forIndex: false };
  if (known['calcium-hardness'].from === 'assumed' || known['total-alkalinity'].from === 'assumed') return usual;
  const waterAt = (at: number): Water => ({ ...cases.likely.water, ph: at, totalAlkalinity: alkalinity });
  const indexAt = (at: number) => indexOf(waterAt(at));
  const liftedAt = (at: number) =>
    indexOf(chlorinated({ ...cases, likely: { ...cases.likely, water: waterAt(at) } }).likely.water);
  if (liftedAt(ph.aim) > index.high) {
    const lowered = Math.max(ph.low, solve(liftedAt, index.high - MARGIN, ph.aim));
    return lowered < ph.aim ? { ph: lowered, forIndex: true } : usual;
  }
  if (indexAt(ph.aim) < index.low) {
    const most = Math.max(ph.aim, ph.high - ROOM_ABOVE);
    const raised = Math.min(most, solve(indexAt, index.low + MARGIN, ph.aim));
    return raised > ph.aim ? { ph: raised, forIndex: true } : usual;
  }
  return usual;
}

/** One step of pH moves the index by about one, so plain stepping closes in fast. */
function solve(indexAt: (ph: number) => number, target: number, from: number): number {
  let ph = from;
  for (let i = 0; i < 3; i++) ph += target - indexAt(ph);
  return ph;
}
