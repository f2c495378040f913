/** What can be wrong with a row of blocks as its values are typed. */
import type { UnitOf } from '../water/units.ts';

/** In which a bottle prints the values of a row. */
export type RowUnit = 'pH' | UnitOf<'hardness'>;

export type RowProblem =
  | { readonly code: 'no-parameter' }
  | { readonly code: 'parameter-twice' }
  | { readonly code: 'too-few' }
  | { readonly code: 'not-a-number'; readonly block: number }
  | { readonly code: 'unclear'; readonly block: number; readonly values: readonly [number, number] }
  | { readonly code: 'twice'; readonly value: string }
  /** Values must rise or fall along the row. */
  | { readonly code: 'out-of-order'; readonly value: string };
