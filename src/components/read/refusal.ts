/** A photo that can't be read: what is wrong, what to do, and the photo. */
import type { ReasonMessage } from '../../core/reading/messages.ts';
import { h } from '../dom.ts';
import { reasonLine } from './reasons.ts';

/**
 * @param reasons each with the letter of its place on the picture, if it has one
 * @param onAgain opens the camera that the photo came from
 */
export function refusal(
  reasons: readonly (ReasonMessage & { readonly letter?: string | undefined })[],
  picture: HTMLElement | null,
  onAgain: (() => void) | null,
): HTMLElement {
  const again = onAgain && h('button', { type: 'button', class: 'primary' }, 'Open the camera again');
  again?.addEventListener('click', () => onAgain?.());
  return h(
    'section',
    { class: 'refusal', 'aria-labelledby': 'refusal-title' },
    h('h2', { id: 'refusal-title', tabindex: -1 }, 'This photo can’t be read'),
    ...reasons.map((reason) => reasonLine(reason, reason.letter)),
    again && h('p', {}, again),
    picture,
  );
}
