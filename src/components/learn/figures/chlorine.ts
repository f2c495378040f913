/** Figures about chlorine. */
import { faradayCeiling } from '../../../core/pool/chlorinator.ts';
import { activeChlorine, BREAKPOINT_STOICHIOMETRIC } from '../../../core/water/chlorine.ts';
import { HYPOCHLOROUS_MORRIS, MOLAR_MASS, OBRIEN_1974, ZERO_CELSIUS } from '../../../core/water/constants.ts';
import { REAGENTS } from '../../../core/water/moves/reagents.ts';
import { ALKALINITY_PER_MMOL, CHLORINE_PER_MMOL, HARDNESS_PER_MMOL } from '../../../core/water/water.ts';
import { numberText } from '../../../words/numbers.ts';
import { milligrams, percent, whole } from '../../../words/figures.ts';

interface Given {
  readonly ph: number;
  readonly stabilizer: number;
  readonly chlorine: number;
  /** 25 where not given. */
  readonly celsius?: number;
}

function activeIn({ ph, stabilizer, chlorine, celsius = 25 }: Given) {
  return activeChlorine({ ph, cyanuricAcid: stabilizer, freeChlorine: chlorine, temperatureC: celsius });
}

/** By the set of 1974. */
export function active(water: Given): string {
  return milligrams(activeIn(water).by1974);
}

export function activeShare({ ph, stabilizer }: Omit<Given, 'chlorine'>): string {
  return percent(activeIn({ ph, stabilizer, chlorine: 3 }).share);
}

/** Free chlorine that leaves as much active as another water has. */
export function chlorineToMatch({
  ph,
  like,
  stabilizer,
}: {
  ph: number;
  like: Omit<Given, 'ph'>;
  stabilizer: number;
}): string {
  const wanted = activeIn({ ph, ...like }).by1974;
  let [low, high] = [0.01, 200];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (activeIn({ ph, stabilizer, chlorine: middle }).by1974 < wanted) low = middle;
    else high = middle;
  }
  return whole((low + high) / 2);
}

export function hoclPka(celsius: number): string {
  return numberText(-HYPOCHLOROUS_MORRIS.log(celsius + ZERO_CELSIUS), { decimals: 2 });
}

/** Of HClCy- letting go of its chlorine, 25 °C. */
export function cyanuratePk(): string {
  return numberText(-OBRIEN_1974.K9a.log(25 + ZERO_CELSIUS), { decimals: 2 });
}

export function chlorinePerAmpHour(): string {
  return `${numberText(faradayCeiling(1, 1), { decimals: 2 })} g`;
}

/** Free chlorine to each mg/L of monochloramine: two of them hold as much as two free ones, and need one more. */
export function breakpointRatio(): string {
  return String(BREAKPOINT_STOICHIOMETRIC);
}

/** g of chlorine to each g of ammonia nitrogen: 3 Cl2 to 2 N. */
export function breakpointMass(): string {
  const nitrogen = 14.007;
  return numberText((3 * MOLAR_MASS.Cl2) / (2 * nitrogen), { decimals: 1 });
}

export function trichlorStabilizer(): string {
  return numberText(perChlorine('trichlor', 'cyanurate', MOLAR_MASS.cyanuricAcid), { decimals: 2 });
}

export function dichlorStabilizer(): string {
  return numberText(perChlorine('dichlor', 'cyanurate', MOLAR_MASS.cyanuricAcid), { decimals: 2 });
}

export function trichlorSeason({ perDay, days }: { perDay: number; days: number }): string {
  return whole(perDay * days * perChlorine('trichlor', 'cyanurate', MOLAR_MASS.cyanuricAcid));
}

export function calHypoHardness(): string {
  return numberText(perChlorine('calcium-hypochlorite', 'calcium', HARDNESS_PER_MMOL), { decimals: 1 });
}

export function bleachSalt(): string {
  return numberText(perChlorine('sodium-hypochlorite', 'salt', MOLAR_MASS.NaCl), { decimals: 1 });
}

/** Alkalinity that trichlor's chlorine takes once it is spent: one acid for each. */
export function trichlorAlkalinity(): string {
  return numberText(ALKALINITY_PER_MMOL / CHLORINE_PER_MMOL, { decimals: 1 });
}

/** mg/L of something that comes with 1 mg/L of a product's chlorine. */
function perChlorine(
  product: 'trichlor' | 'dichlor' | 'calcium-hypochlorite' | 'sodium-hypochlorite',
  what: 'cyanurate' | 'calcium' | 'salt',
  milligramsPerMmol: number,
): number {
  const brings: Readonly<Partial<Record<string, number>>> = REAGENTS[product].brings;
  return ((brings[what] ?? 0) * milligramsPerMmol) / ((brings['chlorine'] ?? Infinity) * CHLORINE_PER_MMOL);
}
