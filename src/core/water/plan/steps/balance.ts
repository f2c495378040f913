/** What the steps for alkalinity and pH share. */
import { phWithAir } from '../../equilibrium.ts';
import { WaterError } from '../../errors.ts';
import type { Water } from '../../water.ts';
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

/** What will be added besides alkalinity and pH. */
export interface Besides {
  /** Stabilizer, calcium, salt. */
  readonly pending: (cases: Cases) => Cases;
  /** The chlorine, which lifts the pH and with it the index. */
  readonly chlorinated: (cases: Cases) => Cases;
}

/** Whether air alone would take the water as far up as wanted, with a little to spare. */
export function airReaches({ likely }: Cases, ph: number): boolean {
  return phInAir(likely.water) > ph + 0.1;
}

/** The pH that air would take the water to in the end; Infinity where the chemistry gives no number. */
export function phInAir(water: Water): number {
  try {
    return phWithAir(water);
  } catch (error) {
    if (error instanceof WaterError) return Infinity;
    throw error;
  }
}
