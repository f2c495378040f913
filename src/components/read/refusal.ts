/** A photo that can't be read: what is wrong, what to do, and the photo. */
import type { RefusalMessage } from '../../core/reading/messages.ts';
import { h } from '../dom.ts';

export function refusal(reasons: readonly RefusalMessage[], picture: HTMLElement | null): HTMLElement {
  return h(
    'section',
    { class: 'refusal', 'aria-labelledby': 'refusal-title' },
    h('h2', { id: 'refusal-title', tabindex: -1 }, 'This photo can’t be read'),
    ...reasons.map(({ wrong, remedy }) => h('p', { class: 'wrong' }, h('strong', {}, wrong), ' ', remedy)),
    picture,
  );
}
