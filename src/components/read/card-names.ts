import type { CardOutline } from '../../core/reading/reading.ts';

/** What to call each of several cards in a photo, in the order in which they are given: from the left or the top. */
export function cardNames(cards: readonly CardOutline[]): string[] {
  if (cards.length !== 2) return cards.map((_, i) => `Card ${i + 1}`);
  const middle = (card: CardOutline, axis: 0 | 1) =>
    card.reduce((sum, corner) => sum + corner[axis], 0) / Math.max(1, card.length);
  const [one, other] = cards as [CardOutline, CardOutline];
  const sideways = Math.abs(middle(one, 0) - middle(other, 0)) >= Math.abs(middle(one, 1) - middle(other, 1));
  return sideways ? ['Left card', 'Right card'] : ['Upper card', 'Lower card'];
}
