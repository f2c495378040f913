/** Sentences about a photo, each with a letter where its place is drawn on the card, and a way to its drawing. */
import type { ReasonMessage } from '../../words/reading.ts';
import { h } from '../dom.ts';
import { href } from '../href.ts';

export interface Reason extends ReasonMessage {
  /** Its code, where the help page draws it. */
  readonly code?: string;
  /** Its letter on the card picture, where it has a place there. */
  readonly letter?: string | undefined;
}

export function reasonLine({ wrong, remedy, code, letter }: Reason): HTMLElement {
  return h(
    'p',
    { class: 'wrong' },
    letter === undefined ? null : h('span', { class: 'place-letter' }, `${letter} `),
    h('strong', {}, wrong),
    ` ${remedy} `,
    code === undefined ? null : h('a', { class: 'no-print', href: href(`read/help/#${code}`) }, 'See it drawn'),
  );
}
