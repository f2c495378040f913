/** A pad of a scale as a bare ribbon: its colours with the values of its blocks. */
import { quantityTitle } from '../../words/quantities.ts';
import type { ScalePad } from '../../core/scale/schema.ts';
import { formatValue } from '../../words/numbers.ts';
import { h } from '../dom.ts';
import { renderRibbon } from '../ribbon/drawing.ts';

export function padRibbon(pad: ScalePad): HTMLElement {
  const values = pad.blocks.map(({ value }) => formatValue(value)).join(', ');
  const unit = pad.unit === 'pH' ? '' : ` ${pad.unit}`;
  const text = `${quantityTitle(pad.parameter)}: blocks at ${values}${unit}.`;
  return h(
    'div',
    { class: 'ribbon-frame bare' },
    renderRibbon({ pad, target: null, estimates: [], offScale: null }, text),
  );
}
