/** What can be done with the answer: print it, and keep the values it rests on. */
import type { Plan } from '../../core/water/plan/types.ts';
import { h } from '../dom.ts';

/** What was kept and what was said of it: the plan may be drawn anew meanwhile, and doesn't offer it again. */
let kept = { values: '', text: '' };
/** Of the sheet that is shown now. */
let draw = (): void => undefined;

export function actions({ input: { readings } }: Plan): HTMLElement {
  const print = h('button', { type: 'button' }, 'Print plan');
  print.addEventListener('click', () => window.print());
  const said = h('span', { role: 'status' });
  // By the form: the plan may rest on other readings once there is a logbook.
  const fields = document.querySelectorAll<HTMLInputElement>('[data-at^="readings."]');
  const values = [...fields].map(({ value }) => value).join('|');
  const hasTyped = Object.values(readings).some((one) => one && one.method !== 'photo');
  const keep = h('button', { type: 'button' }, 'Keep these values');
  keep.addEventListener('click', () => {
    keep.disabled = true;
    void import('./keep-values.ts').then(async ({ keepValues }) => {
      const { text, isKept } = await keepValues(readings);
      kept = { values: isKept ? values : '', text };
      draw();
    });
  });
  draw = () => {
    keep.hidden = !hasTyped || kept.values === values;
    keep.disabled = false;
    said.textContent = kept.values === values || kept.values === '' ? kept.text : '';
  };
  draw();
  return h('div', { class: 'actions no-print' }, print, keep, said);
}
