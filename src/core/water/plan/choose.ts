/** Which product a step uses: what stands on the shelf if it fits, else what to get. */
import type { PlanInput, ShelfItem } from '../../pool/schema.ts';
import { MOLAR_MASS } from '../constants.ts';
import { hypochloriteLeft } from '../hypochlorite-age.ts';
import { isLiquidChlorine, mmolPerUnit, product, type ProductId } from '../products.ts';
import type { ProductChoice } from './step.ts';

/**
 * @param wanted products that would do, best first
 * @returns the first one on the shelf, or the first of all, to be got
 */
export function choose(input: PlanInput, wanted: readonly [ProductId, ...ProductId[]]): ProductChoice {
  for (const id of wanted) {
    const item = input.shelf.find(({ product: onShelf }) => onShelf === id);
    if (item) return choiceOf(id, item);
  }
  const [first] = wanted;
  return { product: first, strength: product(first).strengths[0], onShelf: false, purpose: product(first).purpose };
}

export function onShelf(input: PlanInput, id: ProductId): boolean {
  return input.shelf.some(({ product: one }) => one === id);
}

function choiceOf(id: ProductId, { strength: given, basis, ageMonths, storedAtC, price }: ShelfItem): ProductChoice {
  const strength = given ?? product(id).strengths[0];
  const isLiquid = isLiquidChlorine(id);
  const grams = mmolPerUnit(id, strength, basis) * MOLAR_MASS.Cl2;
  const left = isLiquid && ageMonths !== undefined ? hypochloriteLeft(grams, ageMonths, storedAtC) : 1;
  return {
    product: id,
    strength,
    onShelf: true,
    purpose: product(id).purpose,
    ...(isLiquid && basis && { basis }),
    ...(left < 1 && { left }),
    ...(price !== undefined && { price }),
  };
}

/** mmol of reagent in one mL or gram of what stands there, as strong as it still is. */
export function perUnitOf({ product: id, strength, basis, left = 1 }: ProductChoice): number {
  return mmolPerUnit(id, strength, basis) * left;
}
