/** How fast liquid chlorine loses its strength on the shelf. */
import { MOLAR_MASS, ZERO_CELSIUS } from './constants.ts';

/**
 * In basic solution hypochlorite decays by a second-order reaction: Gordon, Adam & Bubnis, Minimizing chlorate ion
 * formation, Journal AWWA 87(6), 1995 (abstract read). The rate constant, M-1 s-1, with its Arrhenius and ionic
 * strength terms is Adam's, as later reports of the AWWA use it: from memory, unverified. It gives half-lives of 250
 * days at 10 % by weight and 970 at 5 %, 25 °C, where handbooks print 220 and 790 (from memory, unverified).
 */
function rateConstant(temperatureC: number, ionicStrength: number): number {
  const kelvin = temperatureC + ZERO_CELSIUS;
  const R = 8.314;
  return 2.083e10 * kelvin * Math.exp(-1.018e5 / (R * kelvin)) * Math.exp(-56.5 / R) * 10 ** (0.149 * ionicStrength);
}

const SECONDS_PER_MONTH = 30.4 * 24 * 3600;
/** °C of a shed in summer. Common practice, no source. */
export const USUAL_SHED_C = 25;

/**
 * The share of its strength that is left.
 * @param gramsChlorinePerLitre available chlorine when it was fresh, g/L as Cl2
 * @param months since then
 */
export function hypochloriteLeft(gramsChlorinePerLitre: number, months: number, temperatureC = USUAL_SHED_C): number {
  const molar = gramsChlorinePerLitre / MOLAR_MASS.Cl2;
  // As much sodium chloride as hypochlorite comes from making it.
  const k = rateConstant(temperatureC, 2 * molar);
  return 1 / (1 + k * molar * months * SECONDS_PER_MONTH);
}
