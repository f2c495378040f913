/** A scale that was taught, as several kinds of eyes see it: the same drawing and table that practice scales have. */
import '../vision/vision.css';
import { quantityTitle } from '../../words/quantities.ts';
import type { ScalePad, StripScale } from '../../core/scale/schema.ts';
import { h } from '../dom.ts';
import { toElement } from '../svg.ts';
import { numberText } from '../../words/numbers.ts';
import { drawByEye, eyeColumns, eyeRows, STRENGTHS, VERDICT_WORDS } from '../vision/by-eye.ts';

/** Full strength is shown first; the others are drawn when they are chosen. */
export function eyeTables(scale: StripScale): HTMLElement {
  const tables = h('div');
  const show = (strength: number) => tables.replaceChildren(...scale.pads.map((pad) => eyeTable(pad, strength)));
  const choices = STRENGTHS.map(({ strength, word }) => {
    const radio = h('input', { type: 'radio', name: `eyes-${scale.id}`, checked: strength === 1 });
    radio.addEventListener('change', () => show(strength));
    return h('label', {}, radio, ` ${word} (${strength})`);
  });
  show(1);
  return h(
    'div',
    { class: 'vision' },
    h('fieldset', { class: 'no-print' }, h('legend', {}, 'How strong'), ...choices),
    tables,
  );
}

function eyeTable(pad: ScalePad, strength: number): HTMLElement {
  const unit = pad.unit === 'pH' ? '' : ', mg/L';
  const caption = h('caption', {}, `${quantityTitle(pad.parameter)}${unit} · difference between neighbouring blocks`);
  caption.append(toElement(drawByEye(pad, strength)));
  const head = ['Between', ...eyeColumns(strength).map(({ name }) => name)];
  const rows = eyeRows(pad, strength).map(({ between, gaps }) =>
    h(
      'tr',
      {},
      h('th', { scope: 'row' }, between),
      ...gaps.map(({ deltaE, verdict }) =>
        h('td', { class: verdict }, `${numberText(deltaE, { decimals: 1 })} `, h('span', {}, VERDICT_WORDS[verdict])),
      ),
    ),
  );
  const columns = h('tr', {}, ...head.map((name) => h('th', { scope: 'col' }, name)));
  return h(
    'div',
    { class: 'eyes shown', tabindex: 0, role: 'region', 'aria-label': `${quantityTitle(pad.parameter)} by eye` },
    h('table', {}, caption, h('thead', {}, columns), h('tbody', {}, ...rows)),
  );
}
