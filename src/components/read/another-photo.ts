/** Another photo of the strip on the sheet, until the reading is kept: by file or by camera. */
import { h } from '../dom.ts';
import { ANOTHER_PHOTO } from '../../words/sheet.ts';

export interface OnAnother {
  readonly files: (files: readonly File[]) => void;
  /** Null where the photo before came as a file. */
  readonly camera: (() => void) | null;
}

export function anotherPhoto({ files, camera }: OnAnother): HTMLElement {
  const input = h('input', {
    id: 'another-photo',
    class: 'visually-hidden',
    type: 'file',
    accept: 'image/*',
    multiple: true,
  });
  input.addEventListener('change', () => {
    const chosen = [...(input.files ?? [])];
    input.value = '';
    if (chosen.length > 0) files(chosen);
  });
  const live = camera && h('button', { type: 'button' }, ANOTHER_PHOTO.camera);
  live?.addEventListener('click', camera!);
  return h(
    'div',
    { class: 'another-photo no-print' },
    h('p', { class: 'hint' }, ANOTHER_PHOTO.why),
    live,
    h('div', {}, input, h('label', { class: 'button', for: 'another-photo' }, ANOTHER_PHOTO.file)),
  );
}
