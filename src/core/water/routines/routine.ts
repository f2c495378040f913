/** The routines of this pool, and each made for it. */
import type { CautionCode } from '../cautions.ts';
import type { Plan } from '../plan/types.ts';
import { backwash, careOfCell, warming } from './equipment.ts';
import { greenWater } from './green-water.ts';
import type { Course, Occasion, RoutineItem } from './item.ts';
import { afterParty, afterRain, beforeLeaving } from './occasions.ts';
import { closing, opening } from './seasons.ts';

const MAKERS = {
  'after-rain': afterRain,
  'after-party': afterParty,
  'before-leaving': beforeLeaving,
  'green-water': greenWater,
  'clean-filter': backwash,
  'cell-care': careOfCell,
  warming,
  opening,
  closing,
} as const satisfies Record<string, (plan: Plan, occasion: Occasion) => Course>;

export type RoutineId = keyof typeof MAKERS;
export const ROUTINE_IDS = Object.keys(MAKERS) as RoutineId[];

export interface Routine {
  readonly id: RoutineId;
  readonly items: readonly RoutineItem[];
  /** The product's label first. */
  readonly cautions: readonly CautionCode[];
}

/** Usual figures until the owner says otherwise: a storm, a garden party, a fortnight. */
export const USUAL_OCCASION: Occasion = { rainMm: 30, bathers: 10, days: 14 };

/** Those that this pool has a use for. */
export function routinesOf({ input: { pool } }: Plan): RoutineId[] {
  return ROUTINE_IDS.filter((id) => {
    if (id === 'cell-care') return pool.chlorination === 'chlorinator';
    if (id === 'warming') return pool.heater !== 'none';
    if (pool.kind === 'spa') return id === 'before-leaving' || id === 'clean-filter';
    return true;
  });
}

export function routineFor(id: RoutineId, plan: Plan, occasion: Occasion = USUAL_OCCASION): Routine {
  const { items, cautions } = MAKERS[id](plan, occasion);
  return { id, items, cautions: ['label', ...cautions] };
}
