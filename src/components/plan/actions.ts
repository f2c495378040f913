/** What can be done with the answer: print it, and keep the values it rests on. */
import type { Plan } from '../../core/water/plan/types.ts';
import { h } from '../dom.ts';

/** What was kept, so that a plan drawn anew from the same values doesn't offer it again. */
let kept = '';

export function actions({ input: { readings } }: Plan): HTMLElement {
  const print = h('button', { type: 'button' }, 'Print plan');
  print.addEventListener('click', () => window.print());
  const said = h('span', { role: 'status' });
  const values = JSON.stringify(readings);
  const hasTyped = Object.values(readings).some((one) => one && one.method !== 'photo');
  const keep = h('button', { type: 'button', hidden: !hasTyped || values === kept }, 'Keep these values');
  keep.addEventListener('click', () => {
    keep.disabled = true;
    void import('./keep-values.ts').then(async ({ keepValues }) => {
      const { text, isKept } = await keepValues(readings);
      said.textContent = ` ${text}`;
      keep.disabled = false;
      if (!isKept) return;
      kept = values;
      keep.hidden = true;
    });
  });
  return h('div', { class: 'actions no-print' }, print, keep, said);
}
