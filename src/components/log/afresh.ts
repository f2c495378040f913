/** Replaces a store with missing tables: saves what is left of it to a file, then makes a new one. */
import { eraseStore } from '../../browser/store/open.ts';
import { h } from '../dom.ts';

export function afreshButtons(): HTMLElement[] {
  const save = h('button', { type: 'button' }, 'Save what is there');
  const begin = h('button', { type: 'button', disabled: true }, 'Begin afresh');
  const said = h('p', { role: 'status' });
  save.addEventListener('click', () => {
    void import('../keep/export.ts')
      .then(({ exportAsItIs }) => exportAsItIs())
      .then(
        () => {
          begin.disabled = false;
          said.textContent = 'Saved to your downloads.';
        },
        () => {
          begin.disabled = false;
          said.textContent = 'Nothing of it could be read.';
        },
      );
  });
  begin.addEventListener('click', () => void eraseStore().then(() => location.reload()));
  return [h('p', { class: 'buttons' }, save, ' ', begin), said];
}
