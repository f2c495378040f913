/** What the plan costs at the owner's own prices, and a season of chlorine by hand. */
import type { ProductId } from '../products.ts';
import type { Step } from './step.ts';
import type { Cost, Upkeep } from './types.ts';

/** Days of a season. Common practice, no source. */
const SEASON_DAYS = 120;

export function costOf(steps: readonly Step[], upkeep: Upkeep | null): Cost | null {
  const dosed = steps.flatMap(({ amount }) => (amount ? [amount] : []));
  const priced = dosed.flatMap(({ cost }) => (cost === null ? [] : [cost]));
  const unpriced = new Set<ProductId>(dosed.filter(({ cost }) => cost === null).map(({ product }) => product));
  const daily = upkeep?.kind === 'product' ? upkeep.amount.cost : null;
  if (priced.length === 0 && daily === null) return null;
  return {
    steps: priced.length === 0 ? null : priced.reduce((sum, cost) => sum + cost, 0),
    unpriced: [...unpriced],
    season: daily === null ? null : { amount: SEASON_DAYS * daily, days: SEASON_DAYS },
  };
}
