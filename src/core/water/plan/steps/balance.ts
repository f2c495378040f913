/** What the steps for alkalinity and pH share. */
import { phWithAir } from '../../equilibrium.ts';
import type { Cases } from '../cases.ts';
import type { Context } from '../draft.ts';
import type { PhAim } from './aims.ts';

export interface Balance {
  readonly context: Context;
  readonly cases: Cases;
  /** What is still to be added besides: stabilizer, calcium, salt. */
  readonly pending: (cases: Cases) => Cases;
  readonly aim: PhAim;
}

/** Whether air alone would take the water as far up as wanted, with a little to spare. */
export function airReaches({ likely }: Cases, ph: number): boolean {
  return phWithAir(likely.water) > ph + 0.1;
}
