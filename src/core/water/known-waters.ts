/**
 * Waters of known values that can be made in a kitchen: ten grams of one pure substance in a litre of distilled water, and
 * of that so many millilitres, filled up with distilled water to another litre.
 */
import { MOLAR_MASS } from './constants.ts';
import { phOf, phWithAir } from './equilibrium.ts';
import { ALKALINITY_PER_MMOL, HARDNESS_PER_MMOL, waterOf } from './water.ts';

/** Grams in each litre of the strong solution. */
export const STOCK_G_PER_L = 10;

const SALTS = { dihydrate: 'CaCl2·2H2O', anhydrous: 'CaCl2' } as const;
export type CalciumChloride = keyof typeof SALTS;

/** mg/L as CaCO3, from so many mL of a baking soda solution in a litre. */
export function alkalinityMade(millilitres: number): number {
  return (STOCK_G_PER_L / MOLAR_MASS.NaHCO3) * millilitres * ALKALINITY_PER_MMOL;
}

/** mg/L as CaCO3, from so many mL of a calcium chloride solution in a litre. */
export function hardnessMade(millilitres: number, salt: CalciumChloride): number {
  return (STOCK_G_PER_L / MOLAR_MASS[SALTS[salt]]) * millilitres * HARDNESS_PER_MMOL;
}

/**
 * pH of baking soda in distilled water.
 * @param carbonDioxideAtm of the air that it has come into balance with; left out: just dissolved, nothing lost or taken up
 */
export function sodaPh(alkalinity: number, carbonDioxideAtm?: number): number {
  const water = waterOf({ ph: 8.3, totalAlkalinity: alkalinity, calciumHardness: 0 });
  if (carbonDioxideAtm !== undefined) return phWithAir(water, carbonDioxideAtm);
  const equivalents = alkalinity / ALKALINITY_PER_MMOL / 1000;
  const none = { salt: 0, calcium: 0, cyanurate: 0, boron: 0, chlorine: 0, combinedChlorine: 0, sulfate: 0 };
  return phOf({ ...none, temperatureC: 25, alkalinity: equivalents, inorganicCarbon: equivalents });
}
