/** How much it takes: the moves turned round. */
import { backgroundOf, compose, constantsAt } from './composition.ts';
import { contentsOf } from './equilibrium.ts';
import { WaterError } from './errors.ts';
import { changed } from './moves/add.ts';
import { REAGENTS, SODIUM_HYDROXIDE, type Reagent, type ReagentId } from './moves/reagents.ts';
import { bracketedRoot, type Place } from './root.ts';
import { ALKALINITY_PER_MMOL, CHLORINE_PER_MMOL, HARDNESS_PER_MMOL, type Contents, type Water } from './water.ts';
import { MOLAR_MASS } from './constants.ts';

/** How far to look, mmol/L: soda ash at 20 kg to the cubic metre, far beyond any pool. */
const MAX_MMOL = 200;
const FIRST_TRY = 0.02;

/**
 * The strong acid that takes the water to a pH, nothing going to the air: mmol/L of HCl; negative is as much NaOH.
 * @throws WaterError 'out-of-reach'
 */
export function strongAcidToPh(water: Water, targetPh: number): number {
  return targetPh <= water.ph
    ? amountToPh(water, REAGENTS['hydrochloric-acid'], targetPh)
    : -amountToPh(water, SODIUM_HYDROXIDE, targetPh);
}

/**
 * mmol/L of a reagent that takes the water to a pH, nothing going to the air.
 * @throws WaterError 'out-of-reach' when no amount does
 */
export function reagentToPh(water: Water, reagent: ReagentId, targetPh: number): number {
  return amountToPh(water, REAGENTS[reagent], targetPh);
}

function amountToPh(water: Water, { brings }: Reagent, targetPh: number): number {
  if (targetPh === water.ph) return 0;
  const contents = contentsOf(water);
  const at = constantsAt(water.temperatureC);
  const excess = (mmolPerLitre: number) => {
    const after = changed(contents, brings, mmolPerLitre / 1000);
    return (
      compose(targetPh, backgroundOf(after), { inorganicCarbon: after.inorganicCarbon }, at).alkalinity -
      after.alkalinity
    );
  };
  let inner: Place = [0, excess(0)];
  for (let amount = FIRST_TRY; inner[0] < MAX_MMOL; amount = Math.min(MAX_MMOL, amount * 4)) {
    const outer: Place = [amount, excess(amount)];
    const found = bracketedRoot(excess, inner, outer, 1e-10);
    if (found !== null) return found;
    inner = outer;
  }
  throw new WaterError('out-of-reach');
}

/** Readings that a reagent raises or lowers in proportion, and mg/L in one mmol/L of each. */
const PER_MMOL = {
  totalAlkalinity: ['alkalinity', ALKALINITY_PER_MMOL],
  calciumHardness: ['calcium', HARDNESS_PER_MMOL],
  salt: ['salt', MOLAR_MASS.NaCl],
  cyanuricAcid: ['cyanurate', MOLAR_MASS.cyanuricAcid],
  boron: ['boron', MOLAR_MASS.B],
  freeChlorine: ['chlorine', CHLORINE_PER_MMOL],
} as const satisfies Partial<Record<keyof Water, readonly [keyof Contents, number]>>;

export type ProportionalReading = keyof typeof PER_MMOL;

/**
 * mmol/L of a reagent that takes a reading to a target.
 * @throws WaterError 'out-of-reach' when the reagent moves it the other way or not at all
 */
export function reagentToReading(
  water: Water,
  reagent: ReagentId,
  reading: ProportionalReading,
  target: number,
): number {
  const [content, mgPerMmol] = PER_MMOL[reading];
  const brings: Partial<Contents> = REAGENTS[reagent].brings;
  const amount = (target - water[reading]) / mgPerMmol / (brings[content] ?? 0);
  if (!(amount >= 0 && Number.isFinite(amount))) throw new WaterError('out-of-reach');
  return amount;
}
