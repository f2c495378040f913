/** What the sheet says before anything was measured. */
import { h } from '../dom.ts';

export function welcome(): HTMLElement {
  return h('p', { class: 'lead' }, 'Enter what you measured, and what it means appears here.');
}
