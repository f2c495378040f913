/** A button of one scale. */
import type { StripScale } from '../../core/scale/schema.ts';
import { h } from '../dom.ts';

/** So that a screen reader's list of buttons says whose they are. */
export function said(scale: StripScale): HTMLElement {
  return h('span', { class: 'visually-hidden' }, `: ${scale.name}`);
}

export function button(text: string, scale: StripScale, onClick: () => void, look = 'plain'): HTMLElement {
  const element = h('button', { type: 'button', class: look }, text, said(scale));
  element.addEventListener('click', onClick);
  return element;
}
