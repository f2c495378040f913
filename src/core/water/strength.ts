/** From what a product's label says to moles of reagent. */
import { MOLAR_MASS } from './constants.ts';
import { WaterError } from './errors.ts';
import { REAGENTS, type ReagentId } from './moves/reagents.ts';

/** [% by mass, density in g/mL]. */
type DensityTable = readonly (readonly [number, number])[];

/**
 * Hydrochloric acid at 20 °C: handbook densities (Perry's Chemical Engineers' Handbook), read in a public table;
 * pure water from the CRC Handbook, from memory.
 */
const HYDROCHLORIC_DENSITY: DensityTable = [
  [0, 0.9982],
  [10, 1.048],
  [20, 1.098],
  [30, 1.149],
  [32, 1.159],
  [34, 1.169],
  [36, 1.179],
  [38, 1.189],
];

/** Sodium hypochlorite solution against % NaOCl by mass: trade values, from memory, unverified. */
const HYPOCHLORITE_DENSITY: DensityTable = [
  [0, 0.998],
  [6, 1.08],
  [11.31, 1.16],
  [16, 1.24],
];

function densityAt(table: DensityTable, massPercent: number): number {
  const last = table.at(-1)!;
  if (!(massPercent > 0 && massPercent <= last[0])) throw new WaterError('bad-strength');
  const above = table.findIndex(([percent]) => percent >= massPercent);
  const [p1, d1] = table[above]!;
  const [p0, d0] = table[above - 1]!;
  return d0 + ((massPercent - p0) / (p1 - p0)) * (d1 - d0);
}

/** g/mL at 20 °C. @param massPercent above 0, at most 38 */
export function hydrochloricDensity(massPercent: number): number {
  return densityAt(HYDROCHLORIC_DENSITY, massPercent);
}

/** mmol of HCl in one mL of hydrochloric acid. @param massPercent above 0, at most 38 */
export function hydrochloricMmolPerMl(massPercent: number): number {
  return (10 * massPercent * hydrochloricDensity(massPercent)) / MOLAR_MASS.HCl;
}

/** How a label may state the strength of liquid chlorine. */
export type HypochloriteStrength =
  /** Grams of available chlorine in 100 mL. */
  | { readonly tradePercent: number }
  /** Sodium hypochlorite by mass. */
  | { readonly massPercent: number };

/** mmol of chlorine in one mL. */
export function hypochloriteMmolPerMl(strength: HypochloriteStrength): number {
  if ('tradePercent' in strength) {
    if (!(strength.tradePercent > 0 && strength.tradePercent <= 20)) throw new WaterError('bad-strength');
    return (10 * strength.tradePercent) / MOLAR_MASS.Cl2;
  }
  return (10 * strength.massPercent * densityAt(HYPOCHLORITE_DENSITY, strength.massPercent)) / MOLAR_MASS.NaOCl;
}

/** mmol of reagent in one gram of a dry product. @param purityPercent above 0, at most 100 */
export function mmolPerGram(reagent: ReagentId, purityPercent = 100): number {
  if (!(purityPercent > 0 && purityPercent <= 100)) throw new WaterError('bad-strength');
  return (10 * purityPercent) / REAGENTS[reagent].gramsPerMole;
}

/** Dry chlorine products, whose labels give available chlorine. */
export type DryChlorine = 'calcium-hypochlorite' | 'dichlor' | 'dichlor-dihydrate' | 'trichlor';

/** Available chlorine of the pure substance, % as Cl2 by mass. */
export function fullChlorinePercent(reagent: DryChlorine): number {
  const { gramsPerMole, brings } = REAGENTS[reagent];
  return (100 * brings.chlorine * MOLAR_MASS.Cl2) / gramsPerMole;
}

/**
 * mmol of a dry chlorine product in one gram by its available chlorine; the rest is taken for inert.
 * @param availablePercent % as Cl2 by mass, above 0, at most that of the pure substance
 */
export function dryChlorineMmolPerGram(reagent: DryChlorine, availablePercent: number): number {
  if (!(availablePercent > 0 && availablePercent <= fullChlorinePercent(reagent) * 1.001)) {
    throw new WaterError('bad-strength');
  }
  return (10 * availablePercent) / (REAGENTS[reagent].brings.chlorine * MOLAR_MASS.Cl2);
}
