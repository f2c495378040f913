/** What comes into a pool by itself, by its record: chlorine from its cell, and the water that fills it. */
import { USUAL_TIMER_HOURS } from '../pool/chlorinator.ts';
import type { Pool } from './schema.ts';

/** g of chlorine that the chlorinator makes in a day as it is set; null without one, or where unknown. */
export function chlorineMadePerDay({ details, chlorinatorGramsPerDay }: Pool): number | null {
  const number = (at: string, otherwise: number) => {
    const value = details[at];
    return typeof value === 'number' ? value : otherwise;
  };
  const gramsPerHour = details['pool.cell.gramsPerHour'];
  if (typeof gramsPerHour !== 'number') return chlorinatorGramsPerDay;
  return gramsPerHour * number('pool.cell.setting', 1) * number('pool.pump.hoursPerDay', USUAL_TIMER_HOURS);
}

type Filling = 'total-alkalinity' | 'calcium-hardness' | 'cyanuric-acid' | 'salt' | 'boron';

/** What is known of the water that it is filled with, mg/L. */
export function fillOf({ details }: Pool): Partial<Readonly<Record<Filling, number>>> {
  const told = Object.entries(details).filter(([at, value]) => at.startsWith('fill.') && typeof value === 'number');
  return Object.fromEntries(told.map(([at, value]) => [at.slice('fill.'.length), value]));
}
