/** A photo that can't be read: what is wrong, what to do, and the photo. */
import { h } from '../dom.ts';
import { type Reason, reasonLine } from './reasons.ts';

/**
 * @param onAgain opens the camera that the photo came from
 */
export function refusal(
  reasons: readonly Reason[],
  picture: HTMLElement | null,
  onAgain: (() => void) | null,
): HTMLElement {
  const again = onAgain && h('button', { type: 'button', class: 'primary' }, 'Open the camera again');
  again?.addEventListener('click', () => onAgain?.());
  return h(
    'section',
    { class: 'refusal', 'aria-labelledby': 'refusal-title' },
    h('h2', { id: 'refusal-title', tabindex: -1 }, 'This photo can’t be read'),
    ...reasons.map(reasonLine),
    again && h('p', {}, again),
    picture,
  );
}
