/** The order in which several cards of a photo are offered and counted. */
import type { FoundCard } from './find-card.ts';

/** From the left where they lie more beside than below one another, else from the top. */
export function inOrder(cards: readonly FoundCard[]): FoundCard[] {
  const placed = cards.map((card) => ({ card, x: middle(card, 0), y: middle(card, 1) }));
  const spread = (values: readonly number[]) => Math.max(...values) - Math.min(...values);
  const sideways = spread(placed.map(({ x }) => x)) >= spread(placed.map(({ y }) => y));
  return placed.sort((one, other) => (sideways ? one.x - other.x : one.y - other.y)).map(({ card }) => card);
}

function middle({ corners }: FoundCard, axis: 0 | 1): number {
  return corners.reduce((sum, corner) => sum + corner[axis], 0) / corners.length;
}
