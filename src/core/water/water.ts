/** A water as tests tell it, and what it contains as chemistry counts it. */
import { MOLAR_MASS } from './constants.ts';

/**
 * A water by its usual readings, mg/L unless said otherwise.
 *
 * Magnesium, potassium, phosphate and metals are not part of it: calcium counts as calcium chloride, alkalinity as
 * sodium salts. That is how pool water ends up after a season of chlorine, and it overstates the ionic strength of a
 * hard, fresh fill water (index too low by up to 0.05).
 */
export interface Water {
  /** -log of the activity of H+. */
  readonly ph: number;
  readonly temperatureC: number;
  /** Whole titratable alkalinity, as CaCO3: carbonate, cyanurate, borate, hypochlorite and water itself. */
  readonly totalAlkalinity: number;
  /** Calcium only, as CaCO3. */
  readonly calciumHardness: number;
  /** NaCl, not counting the chloride that came with the calcium; chlorine counts as the chloride it will become. */
  readonly salt: number;
  readonly cyanuricAcid: number;
  /** As B. */
  readonly boron: number;
  /** As Cl2; includes what stabilizer holds. */
  readonly freeChlorine: number;
  /** As Cl2. */
  readonly combinedChlorine: number;
  /** As SO4; from dry acid and thiosulfate. */
  readonly sulfate: number;
}

/** What a water contains whatever its pH, mol/L (alkalinity: equivalents). It mixes and adds in proportion. */
export interface Contents {
  readonly temperatureC: number;
  /** Acid that titration takes, with CO2, H3BO3, cyanuric acid and HOCl as its zero. */
  readonly alkalinity: number;
  /** CO2, bicarbonate, carbonate and their ion pairs. */
  readonly inorganicCarbon: number;
  readonly calcium: number;
  readonly salt: number;
  readonly cyanurate: number;
  readonly boron: number;
  readonly chlorine: number;
  readonly combinedChlorine: number;
  readonly sulfate: number;
}

/** mg/L as CaCO3 in one mmol/L of alkalinity. */
export const ALKALINITY_PER_MMOL = MOLAR_MASS.CaCO3 / 2;
/** mg/L as CaCO3 in one mmol/L of calcium. */
export const HARDNESS_PER_MMOL = MOLAR_MASS.CaCO3;
/** mg/L as Cl2 in one mmol/L of chlorine. */
export const CHLORINE_PER_MMOL = MOLAR_MASS.Cl2;

/** The readings without which there is no water; the rest default to 0, the temperature to 25 °C. */
export type WaterReadings = Pick<Water, 'ph' | 'totalAlkalinity' | 'calciumHardness'> & Partial<Water>;

export function waterOf(readings: WaterReadings): Water {
  return {
    temperatureC: 25,
    salt: 0,
    cyanuricAcid: 0,
    boron: 0,
    freeChlorine: 0,
    combinedChlorine: 0,
    sulfate: 0,
    ...readings,
  };
}

/** Everything but the carbon, which takes an equilibrium to know. */
export function measuredContents(water: Omit<Water, 'ph'>): Omit<Contents, 'inorganicCarbon'> {
  return {
    temperatureC: water.temperatureC,
    alkalinity: water.totalAlkalinity / ALKALINITY_PER_MMOL / 1000,
    calcium: water.calciumHardness / HARDNESS_PER_MMOL / 1000,
    salt: water.salt / MOLAR_MASS.NaCl / 1000,
    cyanurate: water.cyanuricAcid / MOLAR_MASS.cyanuricAcid / 1000,
    boron: water.boron / MOLAR_MASS.B / 1000,
    chlorine: water.freeChlorine / CHLORINE_PER_MMOL / 1000,
    combinedChlorine: water.combinedChlorine / CHLORINE_PER_MMOL / 1000,
    sulfate: water.sulfate / MOLAR_MASS.SO4 / 1000,
  };
}

/** The readings of a water whose pH is known. */
export function readingsOf(contents: Contents, ph: number): Water {
  return {
    ph,
    temperatureC: contents.temperatureC,
    totalAlkalinity: contents.alkalinity * 1000 * ALKALINITY_PER_MMOL,
    calciumHardness: contents.calcium * 1000 * HARDNESS_PER_MMOL,
    salt: contents.salt * 1000 * MOLAR_MASS.NaCl,
    cyanuricAcid: contents.cyanurate * 1000 * MOLAR_MASS.cyanuricAcid,
    boron: contents.boron * 1000 * MOLAR_MASS.B,
    freeChlorine: contents.chlorine * 1000 * CHLORINE_PER_MMOL,
    combinedChlorine: contents.combinedChlorine * 1000 * CHLORINE_PER_MMOL,
    sulfate: contents.sulfate * 1000 * MOLAR_MASS.SO4,
  };
}
