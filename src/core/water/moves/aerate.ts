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
