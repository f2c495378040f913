/** What an error of reading is in a product, in a whole pool. */
import { reagentToPh, reagentToReading } from '../water/demand.ts';
import { hydrochloricMmolPerMl, hypochloriteMmolPerMl, mmolPerGram } from '../water/strength.ts';
import { CHLORINE_PER_MMOL, type Water } from '../water/water.ts';
import type { PadQuantity } from '../measurement/quantities.ts';

export type DosedProduct =
  | 'hydrochloric-acid'
  | 'soda-ash'
  | 'sodium-bicarbonate'
  | 'calcium-chloride'
  | 'cyanuric-acid'
  | 'salt'
  | 'liquid-chlorine';

export interface ErrorDose {
  readonly product: DosedProduct;
  readonly form: 'liquid' | 'solid';
  /** Millilitres or grams. */
  readonly amount: number;
  /** Poured in needlessly, or left out though it was needed. */
  readonly kind: 'needless' | 'missing';
}

/** Strengths as on most labels: % by mass of acid, trade per cent of liquid chlorine, % of calcium chloride. */
const ACID = 31.45;
const LIQUID_CHLORINE = 12.5;
const CALCIUM_CHLORIDE = 77;

/**
 * Somebody doses by what they read where the truth is another. Null where the two are the same.
 * @param water the example pool's; the quantity in it doesn't matter
 */
export function doseOfError(
  quantity: PadQuantity,
  read: number,
  truth: number,
  water: Water,
  litres: number,
): ErrorDose | null {
  if (Math.abs(read - truth) < 1e-9) return null;
  // What raises the value is poured in needlessly where it was read too low.
  const kind = read < truth ? 'needless' : 'missing';
  const rise = Math.abs(truth - read);
  if (quantity === 'ph') return phError(read, truth, water, litres);
  if (quantity === 'free-chlorine' || quantity === 'total-chlorine') {
    const mmol = (rise / CHLORINE_PER_MMOL) * litres;
    const amount = mmol / hypochloriteMmolPerMl({ tradePercent: LIQUID_CHLORINE });
    return { product: 'liquid-chlorine', form: 'liquid', amount, kind };
  }
  const { product, reading, purity } = RAISED_BY[quantity];
  const mmolPerLitre = reagentToReading(water, product, reading, water[reading] + rise);
  return { product, form: 'solid', amount: (mmolPerLitre * litres) / mmolPerGram(product, purity), kind };
}

const RAISED_BY = {
  'total-alkalinity': { product: 'sodium-bicarbonate', reading: 'totalAlkalinity', purity: 100 },
  'total-hardness': { product: 'calcium-chloride', reading: 'calciumHardness', purity: CALCIUM_CHLORIDE },
  'cyanuric-acid': { product: 'cyanuric-acid', reading: 'cyanuricAcid', purity: 100 },
  salt: { product: 'salt', reading: 'salt', purity: 100 },
} as const satisfies Partial<Record<PadQuantity, unknown>>;

/** Read too high: acid that wasn't needed, from the truth down by as much. Too low: soda ash that wasn't. */
function phError(read: number, truth: number, water: Water, litres: number): ErrorDose {
  const isHigh = read > truth;
  const at: Water = { ...water, ph: truth };
  const target = truth - (read - truth);
  const product = isHigh ? 'hydrochloric-acid' : 'soda-ash';
  const mmol = reagentToPh(at, isHigh ? 'hydrochloric-acid' : 'soda-ash', target) * litres;
  const amount = isHigh ? mmol / hydrochloricMmolPerMl(ACID) : mmol / mmolPerGram('soda-ash', 100);
  return { product, form: isHigh ? 'liquid' : 'solid', amount, kind: 'needless' };
}
