/** Adding something to a water: its contents change, then its pH follows. Nothing goes to or comes from the air. */
import { contentsOf, waterFrom } from '../equilibrium.ts';
import { WaterError } from '../errors.ts';
import type { Contents, Water } from '../water.ts';
import { HYPOCHLORITE_EXCESS_LYE, REAGENTS, type Change, type Reagent, type ReagentId } from './reagents.ts';

/** @param scale mol/L of what the change is given for */
export function changed(contents: Contents, change: Change, scale: number): Contents {
  const next = { ...contents };
  for (const [name, perMole] of Object.entries(change)) {
    const key = name as keyof Change;
    next[key] += perMole * scale;
    // A tiny negative amount is rounding, not more taken than there was.
    if (key !== 'alkalinity' && next[key] < 0) {
      if (next[key] < -1e-12) throw new WaterError('not-that-much-there');
      next[key] = 0;
    }
  }
  return next;
}

/**
 * The whole water after adding a reagent.
 * @param mmolPerLitre of pool water, at least 0
 * @throws WaterError 'bad-amount', 'contradictory', 'no-equilibrium'
 */
export function add(water: Water, reagent: ReagentId, mmolPerLitre: number): Water {
  return addReagent(water, REAGENTS[reagent], mmolPerLitre);
}

/**
 * Liquid hypochlorite with the lye it holds; `add` takes it for pure.
 * @param mmolPerLitre of chlorine
 * @param excessLye mol NaOH per mol of chlorine
 */
export function addLiquidChlorine(water: Water, mmolPerLitre: number, excessLye = HYPOCHLORITE_EXCESS_LYE): Water {
  const { gramsPerMole, brings } = REAGENTS['sodium-hypochlorite'];
  return addReagent(water, { gramsPerMole, brings: { ...brings, alkalinity: 1 + excessLye } }, mmolPerLitre);
}

export function addReagent(water: Water, reagent: Reagent, mmolPerLitre: number): Water {
  checkAmount(mmolPerLitre);
  return waterFrom(changed(contentsOf(water), reagent.brings, mmolPerLitre / 1000), water.ph);
}

export function checkAmount(amount: number): void {
  if (!(amount >= 0 && Number.isFinite(amount))) throw new WaterError('bad-amount');
}
