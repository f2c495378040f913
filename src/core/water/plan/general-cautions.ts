/** Cautions that hold whatever the steps are. */
import type { CautionCode } from '../cautions.ts';
import type { Context, Draft } from './draft.ts';
import { BLEACHING } from './steps/alkalinity-and-ph.ts';
import { COLD_C } from './verdict.ts';

/** Cautions that follow from the water itself. */
function coldOrHard({ known, targets }: Context): CautionCode[] {
  const { temperature, 'calcium-hardness': calcium } = known;
  const isCold = temperature.from !== 'assumed' && temperature.value < COLD_C;
  const isHard = calcium.from !== 'assumed' && calcium.value > targets['calcium-hardness'].high;
  return [...(isCold ? (['cold-water'] as const) : []), ...(isHard ? (['hard-water'] as const) : [])];
}

/** The product's label leads every list of cautions. */
export function generalCautions(context: Context, drafts: readonly Draft[]): CautionCode[] {
  const { pool, readings } = context.input;
  const dosing: CautionCode[] = ['one-at-a-time', 'never-mix', 'children-away', 'back-in-range-first', 'ph-stings'];
  const cell: CautionCode[] = ['feed-stops-with-pump', 'isolate-cell', 'electricity'];
  return [
    'label',
    'local-rules',
    ...coldOrHard(context),
    ...(drafts.some(({ choice }) => choice) ? dosing : []),
    'see-the-bottom',
    ...(pool.chlorination === 'chlorinator' ? cell : []),
    'strip-steps',
    ...(pool.stabilised ? (['strip-bound-chlorine'] as const) : []),
    ...(readings['total-chlorine'] ? (['strip-combined-poor'] as const) : []),
    ...(readings['total-hardness'] && !readings['calcium-hardness'] ? (['strip-total-hardness'] as const) : []),
    ...((readings['free-chlorine']?.value ?? 0) >= BLEACHING ? (['strip-bleached'] as const) : []),
    'strip-blind',
    'sick-in-the-pool',
  ];
}
