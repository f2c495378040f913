/** Which product a step uses: what stands on the shelf if it fits, else what to get. */
import type { PlanInput, ShelfItem } from '../../pool/schema.ts';
import { MOLAR_MASS } from '../constants.ts';
import { hypochloriteLeft } from '../hypochlorite-age.ts';
import { REAGENTS } from '../moves/reagents.ts';
import { isLiquidChlorine, mmolPerUnit, product, type ProductId } from '../products.ts';
import type { ProductChoice } from './step.ts';

/**
 * @param wanted products that would do, best first
 * @returns of those on the shelf the cheapest where all have their price, else the first; or the first of all, to be got
 */
export function choose(input: PlanInput, wanted: readonly [ProductId, ...ProductId[]]): ProductChoice {
  const there = wanted.flatMap((id) => {
    const item = input.shelf.find(({ product: onShelf }) => onShelf === id);
    return item ? [choiceOf(id, item)] : [];
  });
  const first = there[0];
  if (first) return cheapest(there) ?? first;
  const [best] = wanted;
  return { product: best, strength: product(best).strengths[0], onShelf: false, purpose: product(best).purpose };
}

/** Null where one of them has no price. */
function cheapest(choices: readonly ProductChoice[]): ProductChoice | null {
  if (choices.some(({ price }) => price === undefined)) return null;
  // A product of two equivalents to the mole does twice the work.
  const perEffect = (choice: ProductChoice) => choice.price! / (perUnitOf(choice) * (EQUIVALENTS[choice.product] ?? 1));
  return choices.reduce((least, one) => (perEffect(one) < perEffect(least) ? one : least));
}

/** Chlorine, or pairs of alkalinity, that a mole brings beside those that would do instead. */
const EQUIVALENTS: Partial<Record<ProductId, number>> = {
  'calcium-hypochlorite': REAGENTS['calcium-hypochlorite'].brings.chlorine,
  dichlor: REAGENTS.dichlor.brings.chlorine,
};

export function onShelf(input: PlanInput, id: ProductId): boolean {
  return input.shelf.some(({ product: one }) => one === id);
}

function choiceOf(
  id: ProductId,
  { strength: given, basis, ageMonths, storedAtC, price, learntShare }: ShelfItem,
): ProductChoice {
  const strength = given ?? product(id).strengths[0];
  const isLiquid = isLiquidChlorine(id);
  const grams = mmolPerUnit(id, strength, basis) * MOLAR_MASS.Cl2;
  const aged = isLiquid && ageMonths !== undefined ? hypochloriteLeft(grams, ageMonths, storedAtC) : 1;
  const left = learntShare ?? aged;
  return {
    product: id,
    strength,
    onShelf: true,
    purpose: product(id).purpose,
    ...(isLiquid && basis && { basis }),
    ...(left !== 1 && { left }),
    ...(learntShare !== undefined && { isLearnt: true }),
    ...(price !== undefined && { price }),
  };
}

/** mmol of reagent in one mL or gram of what stands there, as strong as it still is. */
export function perUnitOf({ product: id, strength, basis, left = 1 }: ProductChoice): number {
  return mmolPerUnit(id, strength, basis) * left;
}
