/** A photo that came from outside the site: shown, and read only on the visitor's word. */
import type { HandedOver } from '../../browser/offline.ts';
import { h } from '../dom.ts';

export function handedOver(handed: HandedOver, read: (photo: Blob) => void): HTMLElement {
  const place = h('section', { class: 'handed-over', 'aria-labelledby': 'handed-over-title' });
  const title = h('h2', { id: 'handed-over-title', tabindex: -1 });
  if (handed === 'refused') {
    title.append('A photo was not taken');
    const why = 'Another site tried to hand over a photo. Photos come from you alone: choose one above, or share it.';
    place.append(title, h('p', {}, why));
    return place;
  }
  title.append('A photo was handed over');
  const url = URL.createObjectURL(handed.photo);
  const picture = h('img', { src: url, alt: 'The photo that was handed over.' });
  picture.addEventListener('load', () => URL.revokeObjectURL(url), { once: true });
  const yes = h('button', { type: 'button', class: 'primary' }, 'Read it');
  const no = h('button', { type: 'button' }, 'Leave it');
  yes.addEventListener('click', () => read(handed.photo));
  no.addEventListener('click', () => place.remove());
  place.append(
    title,
    h('p', {}, 'If you shared it, read it. If you don’t know where it comes from, leave it.'),
    h('p', { class: 'buttons' }, yes, ' ', no),
    h('figure', { class: 'photo' }, picture),
  );
  return place;
}
