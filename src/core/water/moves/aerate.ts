/**
 * CO2 going to the air (or, in water poorer in it than the air would have it, coming from the air). Alkalinity stays
 * as it is; pool water usually holds several times the CO2 that air would leave it, so its pH rises.
 */
import { backgroundOf, compose, constantsAt } from '../composition.ts';
import { AIR_CO2 } from '../constants.ts';
import { WaterError } from '../errors.ts';
import { measuredContents, type Water } from '../water.ts';

/** Steps of pH on which the CO2 is worked out: between two its logarithm is all but straight. */
const STEP = 1 / 32;
const BOUNDS = [1, 13] as const;
/** mol/L; less is none: the other acids hold all of the alkalinity. */
const NONE = 1e-15;
const LOG_NONE = Math.log(NONE);

/**
 * For many steps of one water: its CO2 is worked out once for each stretch of pH that it comes to.
 * @returns the pH after a share (0-1) of the way to balance with air from another pH: right to 0.0002, or to a step
 *   where other acids hold all but all of the alkalinity
 * @throws WaterError 'contradictory' as `speciate`, 'bad-amount' for a share that isn't one
 */
export function aerationOf(water: Omit<Water, 'ph'>): (ph: number, share: number) => number {
  const at = constantsAt(water.temperatureC);
  const measured = measuredContents(water);
  const background = backgroundOf(measured);
  const known = new Map<number, number>();
  const logAt = (step: number) => {
    let found = known.get(step);
    if (found === undefined) {
      found = Math.log(Math.max(NONE, compose(step * STEP, background, measured, at).carbonDioxide));
      known.set(step, found);
    }
    return found;
  };
  const inTheEnd = at.henry * AIR_CO2.atm;
  return (ph, share) => {
    if (!(share >= 0 && share <= 1)) throw new WaterError('bad-amount');
    let step = Math.floor(ph / STEP);
    if (!(logAt(step) > LOG_NONE)) throw new WaterError('contradictory');
    const now = Math.exp(logAt(step) + (ph / STEP - step) * (logAt(step + 1) - logAt(step)));
    const wanted = Math.log(now + share * (inTheEnd - now));
    // CO2 falls as the pH rises.
    while (logAt(step + 1) > wanted && step * STEP < BOUNDS[1]) step += 1;
    while (logAt(step) < wanted && step * STEP > BOUNDS[0]) step -= 1;
    return STEP * (step + (wanted - logAt(step)) / (logAt(step + 1) - logAt(step)));
  };
}
