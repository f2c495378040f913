/**
 * What one mole of each reagent brings, in the water's conserved contents. Sodium and chloride come along by charge
 * balance (see `Water`): hydrochloric acid leaves its chloride as salt, bisulfate its sulfate, hypochlorite the
 * chloride its chlorine becomes.
 */
import { MOLAR_MASS } from '../constants.ts';
import type { Contents } from '../water.ts';

export type Change = Partial<Omit<Contents, 'temperatureC'>>;

export interface Reagent {
  readonly gramsPerMole: number;
  /** mol (alkalinity: equivalents) per mole of reagent. */
  readonly brings: Change;
}

export const REAGENTS = {
  'hydrochloric-acid': { gramsPerMole: MOLAR_MASS.HCl, brings: { alkalinity: -1, salt: 1 } },
  'sodium-bisulfate': { gramsPerMole: MOLAR_MASS.NaHSO4, brings: { alkalinity: -1, sulfate: 1 } },
  'sodium-bicarbonate': { gramsPerMole: MOLAR_MASS.NaHCO3, brings: { alkalinity: 1, inorganicCarbon: 1 } },
  'soda-ash': { gramsPerMole: MOLAR_MASS.Na2CO3, brings: { alkalinity: 2, inorganicCarbon: 1 } },
  /** Na2B4O7·10H2O: two of its four borons arrive as borate. */
  borax: { gramsPerMole: MOLAR_MASS.boraxDecahydrate, brings: { alkalinity: 2, boron: 4 } },
  'boric-acid': { gramsPerMole: MOLAR_MASS.boricAcid, brings: { boron: 1 } },
  'calcium-chloride': { gramsPerMole: MOLAR_MASS.CaCl2, brings: { calcium: 1 } },
  'calcium-chloride-dihydrate': { gramsPerMole: MOLAR_MASS['CaCl2·2H2O'], brings: { calcium: 1 } },
  salt: { gramsPerMole: MOLAR_MASS.NaCl, brings: { salt: 1 } },
  /** An acid: what it gives off at the pool's pH comes out of the carbonate alkalinity, not out of the total. */
  'cyanuric-acid': { gramsPerMole: MOLAR_MASS.cyanuricAcid, brings: { cyanurate: 1 } },
  /** NaOCl with the NaCl made beside it: 2 NaOH + Cl2. */
  'sodium-hypochlorite': { gramsPerMole: MOLAR_MASS.NaOCl, brings: { chlorine: 1, alkalinity: 1, salt: 2 } },
  /** Ca(OCl)2; the lime some products hold is not counted. */
  'calcium-hypochlorite': {
    gramsPerMole: MOLAR_MASS['Ca(OCl)2'],
    brings: { chlorine: 2, alkalinity: 2, calcium: 1 },
  },
  /** NaCl2C3N3O3. */
  dichlor: { gramsPerMole: MOLAR_MASS.dichlor, brings: { chlorine: 2, cyanurate: 1, alkalinity: 1, salt: 2 } },
  'dichlor-dihydrate': {
    gramsPerMole: MOLAR_MASS.dichlorDihydrate,
    brings: { chlorine: 2, cyanurate: 1, alkalinity: 1, salt: 2 },
  },
  /** Cl3C3N3O3. */
  trichlor: { gramsPerMole: MOLAR_MASS.trichlor, brings: { chlorine: 3, cyanurate: 1, salt: 3 } },
} as const satisfies Record<string, Reagent>;

export type ReagentId = keyof typeof REAGENTS;

/**
 * Sodium hydroxide (lye), kept apart from the rest: strong enough to blind, and no plan proposes it unless the owner
 * asks for it by name.
 */
export const SODIUM_HYDROXIDE: Reagent = { gramsPerMole: MOLAR_MASS.NaOH, brings: { alkalinity: 1 } };

/**
 * Lye that keeps liquid hypochlorite stable, mol per mol of chlorine: about 0.4 % NaOH in a 12.5 % solution.
 * From memory, unverified; products differ.
 */
export const HYPOCHLORITE_EXCESS_LYE = 0.06;
