/** What chlorine does to the water besides disinfecting: made, used up, taken out. */
import { contentsOf, waterFrom } from '../equilibrium.ts';
import { WaterError } from '../errors.ts';
import { CHLORINE_PER_MMOL, type Water } from '../water.ts';
import { changed, checkAmount } from './add.ts';
import type { Change } from './reagents.ts';

/** Per mole of chlorine. */
const CHANGES = {
  /** Cl- + H2O = OCl- + H2: salt turns into hypochlorite. The alkalinity it lends goes back when the chlorine is used. */
  made: { chlorine: 1, alkalinity: 1 },
  /** HOCl = H+ + Cl- (+ oxygen, taken up or given off). */
  used: { chlorine: -1, alkalinity: -1 },
} as const satisfies Record<string, Change>;

/**
 * The water after a salt chlorinator has made some chlorine. Over making and using it up, alkalinity doesn't change;
 * the pH still creeps up, because the bubbles of hydrogen carry CO2 out: that part is `aerate`.
 * @param chlorineMgL as Cl2
 */
export function electrolyse(water: Water, chlorineMgL: number): Water {
  return change(water, CHANGES.made, chlorineMgL);
}

/**
 * The water after sunlight and dirt have used up some of its free chlorine: acid is left behind.
 * @param chlorineMgL as Cl2, at most what is there
 * @throws WaterError 'not-that-much-there'
 */
export function useUpChlorine(water: Water, chlorineMgL: number): Water {
  if (chlorineMgL > water.freeChlorine * (1 + 1e-9)) throw new WaterError('not-that-much-there');
  return change(water, CHANGES.used, Math.min(chlorineMgL, water.freeChlorine));
}

function change(water: Water, perMole: Change, chlorineMgL: number): Water {
  checkAmount(chlorineMgL);
  return waterFrom(changed(contentsOf(water), perMole, chlorineMgL / CHLORINE_PER_MMOL / 1000), water.ph);
}

/**
 * What thiosulfate turns into depends on pH and on how fast it is mixed in; textbooks give these reactions.
 * Per mole of Na2S2O3.
 */
export const THIOSULFATE_REACTIONS = {
  /** S2O3²- + 4 HOCl + H2O = 2 SO4²- + 4 Cl- + 6 H+. Takes the least thiosulfate. */
  'to-sulfate': { chlorine: -4, alkalinity: -6, sulfate: 2 },
  /** S2O3²- + HOCl = S + SO4²- + Cl- + H+. */
  'to-sulfur': { chlorine: -1, alkalinity: -1, sulfate: 1 },
} as const satisfies Record<string, Change>;

export type ThiosulfateReaction = keyof typeof THIOSULFATE_REACTIONS;

/** mmol/L of thiosulfate that takes out so much chlorine (mg/L as Cl2) by that reaction. */
export function thiosulfateFor(chlorineMgL: number, reaction: ThiosulfateReaction = 'to-sulfate'): number {
  checkAmount(chlorineMgL);
  return chlorineMgL / CHLORINE_PER_MMOL / -THIOSULFATE_REACTIONS[reaction].chlorine;
}

/**
 * The water after thiosulfate. By default the reaction that takes most chlorine for it: a dose worked out so never
 * takes out too much.
 * @param mmolPerLitre of Na2S2O3 (the pentahydrate holds one)
 * @throws WaterError 'not-that-much-there' when there is less chlorine than it could take
 */
export function addThiosulfate(
  water: Water,
  mmolPerLitre: number,
  reaction: ThiosulfateReaction = 'to-sulfate',
): Water {
  checkAmount(mmolPerLitre);
  return waterFrom(changed(contentsOf(water), THIOSULFATE_REACTIONS[reaction], mmolPerLitre / 1000), water.ph);
}
