/** Several cards in one photo: the photo with each card outlined, and a button for each. */
import { refusalMessage } from '../../words/reading.ts';
import type { CardOutline } from '../../core/reading/reading.ts';
import { h } from '../dom.ts';
import { svg, toElement } from '../svg.ts';
import { cardNames } from './card-names.ts';

export interface PhotoSize {
  readonly width: number;
  readonly height: number;
}

/**
 * @param shown the photo; null where it can't be shown
 * @param shares the cards in the order in which they are chosen
 * @param choose told the place of the chosen card in that order
 */
export function whichCard(
  shown: HTMLElement | null,
  size: PhotoSize,
  shares: readonly CardOutline[],
  choose: (which: number) => void,
): HTMLElement {
  const cards = shares.map((card) => card.map(([x, y]) => [x * size.width, y * size.height] as const));
  const names = cardNames(cards);
  const { wrong } = refusalMessage('two-cards');
  const buttons = names.map((name, i) => {
    const button = h('button', { type: 'button' }, name);
    button.addEventListener('click', () => choose(i));
    return button;
  });
  const photo = h('div', { class: 'card-picture' }, shown);
  photo.append(outlines(size, cards, names, choose));
  return h(
    'section',
    { class: 'which-card', 'aria-labelledby': 'which-card-title' },
    h('h2', { id: 'which-card-title', tabindex: -1 }, 'Which card should be read?'),
    h('p', {}, `${wrong} Choose one here, or take another photo with only one card in it.`),
    h('div', { class: 'choices', role: 'group', 'aria-labelledby': 'which-card-title' }, ...buttons),
    h('figure', {}, photo, h('figcaption', {}, 'Your photo, with the cards outlined and named.')),
  );
}

/** A pointer may choose on the picture too; the buttons say the same to everyone else. */
function outlines(
  size: PhotoSize,
  cards: readonly CardOutline[],
  names: readonly string[],
  choose: (i: number) => void,
) {
  // So that lines are as wide in every photo.
  const unit = Math.max(size.width, size.height) / 200;
  const drawing = toElement(
    svg(
      'svg',
      { viewBox: `0 0 ${size.width / unit} ${size.height / unit}`, 'aria-hidden': 'true' },
      ...cards.map((outline, i) => {
        const corners = outline.map(([x, y]) => [x / unit, y / unit] as const);
        const points = corners.map(([x, y]) => `${x.toFixed(2)},${y.toFixed(2)}`).join(' ');
        const [x, y] = [0, 1].map((k) => corners.reduce((sum, corner) => sum + corner[k as 0 | 1], 0) / corners.length);
        return svg(
          'g',
          { class: 'choice' },
          svg('polygon', { class: 'halo', points }),
          svg('polygon', { class: 'outline', points }),
          svg('text', { x: x!, y: y!, 'text-anchor': 'middle' }, names[i]!),
        );
      }),
    ),
  );
  drawing.querySelectorAll('.choice').forEach((group, i) => group.addEventListener('click', () => choose(i)));
  return drawing;
}
