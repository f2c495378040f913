/** A scale's name, times, pads and values as fields. */
import { quantityTitle } from '../../words/quantities.ts';
import { type PadEdit, withPads } from '../../core/scale/edit-scale.ts';
import { parseScale, type StripScale } from '../../core/scale/schema.ts';
import { h, need } from '../dom.ts';
import { faultSentence } from '../../words/faults.ts';
import { fieldNumber, type Plausible } from '../../core/typed/number.ts';
import { PLAUSIBLE, plausibleFor } from '../../core/typed/plausible.ts';
import { isAsking, typedNumber } from '../typed.ts';

/** @param onDone with the changed scale, or null when nothing is to change */
export function editForm(scale: StripScale, onDone: (scale: StripScale | null) => void): HTMLFormElement {
  const cancel = h('button', { type: 'button', class: 'plain' }, 'Cancel');
  const form = h(
    'form',
    { class: 'scale scale-form', 'aria-label': `Edit ${scale.name}`, novalidate: true },
    h('p', {}, field('Name of the strip', 'name', scale.name, 'text')),
    h(
      'fieldset',
      { class: 'in-line' },
      h('legend', {}, 'Times in seconds'),
      field('Dip for', 'dipSeconds', scale.dipSeconds),
      field('Read from', 'readAfterSeconds', scale.readAfterSeconds),
      field('until', 'readBeforeSeconds', scale.readBeforeSeconds),
    ),
    ...scale.pads.map((pad, i) =>
      h(
        'fieldset',
        { class: 'in-line' },
        h('legend', {}, `Pad ${i + 1}: ${quantityTitle(pad.parameter)}${pad.unit === 'pH' ? '' : `, ${pad.unit}`}`),
        ...pad.blocks.map((block, k) => field(`block ${k + 1}`, `value-${i}-${k}`, block.value)),
        field('middle, mm', `centreMm-${i}`, pad.centreMm),
        field('length, mm', `widthMm-${i}`, pad.widthMm),
      ),
    ),
    h('p', { class: 'hint' }, 'Leave a block’s value empty to take the block out.'),
    h('div', { class: 'issues', role: 'status' }),
    h('p', { class: 'buttons' }, h('button', { type: 'submit', class: 'primary' }, 'Keep the changes'), cancel),
  );
  cancel.addEventListener('click', () => onDone(null));
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    const parsed = parseScale(changed(scale, form));
    if (isAsking(form)) return;
    if (parsed.ok) return onDone(parsed.scale);
    const issues = need(form, '.issues');
    issues.replaceChildren(...parsed.issues.map((issue) => h('p', { class: 'wrong' }, faultSentence(issue))));
  });
  return form;
}

function field(label: string, name: string, value: string | number, type: 'text' | 'number' = 'number'): HTMLElement {
  const attributes =
    type === 'text'
      ? { type, name, value: String(value), maxlength: 120 }
      : { type: 'text', inputmode: 'decimal', name, value: fieldNumber(Number(value)) };
  return h('label', {}, `${label} `, h('input', { ...attributes, autocomplete: 'off' }));
}

/** What the fields say; a field that holds no number becomes one that no scale can have, so that it is named as wrong. */
function changed(scale: StripScale, form: HTMLFormElement): StripScale {
  const text = (name: string) => need<HTMLInputElement>(form, `[name="${name}"]`).value.trim();
  const number = (name: string, plausible: Plausible = PLAUSIBLE.seconds) =>
    typedNumber(need(form, `[name="${name}"]`), plausible) ?? Number.NaN;
  const edits = scale.pads.map((pad, i): PadEdit => ({
    centreMm: number(`centreMm-${i}`, PLAUSIBLE.millimetres),
    widthMm: number(`widthMm-${i}`, PLAUSIBLE.millimetres),
    heightMm: Math.min(pad.heightMm, number(`widthMm-${i}`, PLAUSIBLE.millimetres)),
    values: pad.blocks.map((_, k) =>
      text(`value-${i}-${k}`) === '' ? null : number(`value-${i}-${k}`, plausibleFor(pad.parameter)),
    ),
  }));
  return {
    ...withPads(scale, edits),
    name: text('name'),
    dipSeconds: number('dipSeconds'),
    readAfterSeconds: number('readAfterSeconds'),
    readBeforeSeconds: number('readBeforeSeconds'),
  };
}
