/** Which product a step uses: what stands on the shelf if it fits, else what to get. */
import type { PlanInput } from '../../pool/schema.ts';
import { product, type ProductId } from '../products.ts';
import type { ProductChoice } from './step.ts';

/**
 * @param wanted products that would do, best first
 * @returns the first one on the shelf, or the first of all, to be got
 */
export function choose(input: PlanInput, wanted: readonly [ProductId, ...ProductId[]]): ProductChoice {
  for (const id of wanted) {
    const item = input.shelf.find(({ product: onShelf }) => onShelf === id);
    if (item) return choiceOf(id, item.strength ?? product(id).strengths[0], true);
  }
  return choiceOf(wanted[0], product(wanted[0]).strengths[0], false);
}

export function onShelf(input: PlanInput, id: ProductId): boolean {
  return input.shelf.some(({ product: one }) => one === id);
}

function choiceOf(id: ProductId, strength: number, isOnShelf: boolean): ProductChoice {
  return { product: id, strength, onShelf: isOnShelf, purpose: product(id).purpose };
}
