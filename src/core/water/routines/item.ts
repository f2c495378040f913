/**
 * What is done at an occasion or as care, in its own order: codes and figures only; `src/words/plan/routines.ts` has
 * the sentences. Order and figures are common practice, no source, unless a constant says otherwise.
 */
import type { CautionCode } from '../cautions.ts';

/** What the owner says of the occasion. */
export interface Occasion {
  readonly rainMm: number;
  readonly bathers: number;
  readonly days: number;
}

/** Figures by their meaning; metric, and missing where they don't apply to this pool. */
export type Figures = Readonly<Record<string, number>>;

export interface RoutineItem {
  readonly code: string;
  readonly figures: Figures;
}

export interface Course {
  readonly items: readonly RoutineItem[];
  readonly cautions: readonly CautionCode[];
}

export function item(code: string, figures: Figures = {}): RoutineItem {
  return { code, figures };
}

/** The items whose condition holds. */
export function course(
  items: readonly (RoutineItem | false)[],
  cautions: readonly (CautionCode | false)[] = [],
): Course {
  return {
    items: items.filter((one) => one !== false),
    cautions: cautions.filter((one) => one !== false),
  };
}
