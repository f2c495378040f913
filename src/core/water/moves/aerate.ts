/**
 * CO2 going to the air (or, in water poorer in it than the air would have it, coming from the air). Alkalinity stays
 * as it is; pool water usually holds several times the CO2 that air would leave it, so its pH rises.
 */
import { constantsAt } from '../composition.ts';
import { AIR_CO2 } from '../constants.ts';
import { phWithCarbonDioxide, speciate } from '../equilibrium.ts';
import { WaterError } from '../errors.ts';
import type { Water } from '../water.ts';

/**
 * @param share of the way to balance with air that the dissolved CO2 has gone, 0-1
 * @param carbonDioxideAtm partial pressure of CO2 in the air
 */
export function aerate(water: Water, share: number, carbonDioxideAtm: number = AIR_CO2.atm): Water {
  if (!(share >= 0 && share <= 1)) throw new WaterError('bad-amount');
  const at = constantsAt(water.temperatureC);
  const now = speciate(water, at).carbonDioxide;
  const inTheEnd = at.henry * carbonDioxideAtm;
  return { ...water, ph: phWithCarbonDioxide(water, now + share * (inTheEnd - now), at) };
}

/** Steps of pH on which the CO2 is worked out: between two its logarithm is straight to 0.0001. */
const STEP = 1 / 32;
const BOUNDS = [1, 13] as const;

/**
 * `aerate` for many steps of one water, its CO2 worked out once for each stretch of pH it comes to.
 * @returns the pH that follows from a pH after a share of the way, within 0.0002 of `aerate`'s; it throws as `speciate`
 */
export function aerationOf(
  water: Omit<Water, 'ph'>,
  carbonDioxideAtm: number = AIR_CO2.atm,
): (ph: number, share: number) => number {
  const at = constantsAt(water.temperatureC);
  const known = new Map<number, number>();
  const logAt = (step: number) => {
    const found = known.get(step) ?? Math.log(speciate({ ...water, ph: step * STEP }, at).carbonDioxide);
    known.set(step, found);
    return found;
  };
  const inTheEnd = at.henry * carbonDioxideAtm;
  return (ph, share) => {
    let step = Math.floor(ph / STEP);
    const now = Math.exp(logAt(step) + (ph / STEP - step) * (logAt(step + 1) - logAt(step)));
    const wanted = Math.log(now + share * (inTheEnd - now));
    // CO2 falls as the pH rises.
    while (logAt(step + 1) > wanted && step * STEP < BOUNDS[1]) step += 1;
    while (logAt(step) < wanted && step * STEP > BOUNDS[0]) step -= 1;
    return STEP * (step + (wanted - logAt(step)) / (logAt(step + 1) - logAt(step)));
  };
}
