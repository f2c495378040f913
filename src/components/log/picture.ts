/** The kept picture of a card, shown when it is asked for. */
import type { LogStore } from '../../browser/store/store.ts';
import { h } from '../dom.ts';

export async function showPicture(store: LogStore, id: string, place: HTMLElement): Promise<void> {
  const picture = await store.get('pictures', id).catch(() => undefined);
  if (!picture) {
    place.replaceChildren(h('p', { class: 'hint' }, 'The picture of this card isn’t here.'));
    return;
  }
  const url = URL.createObjectURL(new Blob([picture.jpeg], { type: 'image/jpeg' }));
  const image = h('img', { src: url, alt: 'The card of this reading, flattened.' });
  image.addEventListener('load', () => URL.revokeObjectURL(url));
  place.replaceChildren(image);
}
