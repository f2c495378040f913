/** Calcium certainly high: where it grows as scale is looked at, and softer water is offered, not prescribed. */
import { NOTHING, type Context, type Draft, type Drafted } from '../draft.ts';
import { judge } from '../span.ts';
import type { Step, StepNote } from '../step.ts';
import { USUAL_FILL } from './replace-water.ts';

/** @param isReplaced part of the water is replaced anyway */
export function lookForScaleStep(context: Context, isReplaced: boolean): Drafted {
  const { input, known, targets } = context;
  const calcium = known['calcium-hardness'];
  if (calcium.from === 'assumed' || judge(calcium, targets['calcium-hardness']) !== 'high') return NOTHING;
  const hasCell = input.pool.chlorination === 'chlorinator';
  const offer = isReplaced ? null : offerOf(context);
  const notes: StepNote[] = [
    ...(hasCell ? (['look-at-the-cell'] as const) : []),
    ...(input.pool.heater === 'none' ? [] : (['look-at-the-heater'] as const)),
    'look-at-the-waterline',
    ...(offer ? (['dilution-offered'] as const) : []),
  ];
  const draft: Draft = {
    id: 'look-for-scale',
    kind: 'look-for-scale',
    moves: [],
    apply: (cases) => cases,
    parts: 1,
    ...(offer && { offer }),
    how: null,
    circulateMinutes: 0,
    notes,
    cautions: hasCell ? ['isolate-cell'] : [],
    why: [],
  };
  return { drafts: [draft], holds: [] };
}

/** Of the target's upper end: fill water harder than that would take too much of it. Common practice, no source. */
const SOFT_ENOUGH = 0.5;

/** What it would take to bring the calcium to the upper end of its target; null where the fill water isn't soft. */
function offerOf({ input, known, targets, volume }: Context): NonNullable<Step['offer']> | null {
  const from = known['calcium-hardness'].value;
  const to = targets['calcium-hardness'].high;
  const fill = input.fill['calcium-hardness'] ?? USUAL_FILL['calcium-hardness'].value;
  if (fill > SOFT_ENOUGH * to || from <= to) return null;
  const share = (from - to) / (from - fill);
  return { share, litres: share * volume.value, toCalcium: to };
}
