/** Where the water lies between etching and scaling, as a drawing and a sentence. */
import type { Readings } from '../../core/pool/schema.ts';
import { WaterError } from '../../core/water/errors.ts';
import type { Target } from '../../core/water/targets.ts';
import { h } from '../dom.ts';
import { toElement } from '../svg.ts';
import { ASSUMED_TEMPERATURE_C, indexOf, type IndexNeed, type IndexSpan } from './reckon.ts';
import { drawWaterLine } from './water-line.ts';

const NEEDS: Record<IndexNeed, string> = {
  ph: 'the pH',
  'total-alkalinity': 'the total alkalinity',
  hardness: 'the hardness',
};

export function waterView(readings: Readings, target: Target): HTMLElement {
  const heading = h('h2', {}, 'Etching or scaling');
  try {
    const found = indexOf(readings);
    if ('needs' in found) {
      const needs = found.needs.map((need) => NEEDS[need]).join(', ');
      return h('section', {}, heading, h('p', { class: 'hint' }, `To work out the saturation index, give ${needs}.`));
    }
    return h('section', {}, heading, drawing(found, target), ...sentences(found, readings, target));
  } catch (error) {
    if (!(error instanceof WaterError)) throw error;
    const text = 'These readings can’t be those of one water: check pH and total alkalinity.';
    return h('section', {}, heading, h('p', { class: 'wrong' }, text));
  }
}

function drawing(found: IndexSpan, target: Target): HTMLElement {
  const text =
    `Saturation index ${signed(found.index)}, between ${signed(found.low)} and ${signed(found.high)}. ` +
    `It should lie between ${signed(target.low)} and ${signed(target.high)}.`;
  return h(
    'figure',
    { class: 'water-figure' },
    toElement(drawWaterLine({ ...found, target }, text)),
    h(
      'figcaption',
      { class: 'water-line-ends' },
      h('span', {}, 'eats plaster, grout and metal'),
      h('span', {}, 'in balance'),
      h('span', {}, 'leaves scale'),
    ),
  );
}

function sentences(found: IndexSpan, readings: Readings, target: Target): HTMLElement[] {
  const sure = verdictOf(found.low, target) === verdictOf(found.high, target);
  const span = found.low < found.high ? `, between ${signed(found.low)} and ${signed(found.high)}` : '';
  const notes = [
    readings.temperature ? '' : `No temperature was given; ${ASSUMED_TEMPERATURE_C} °C is assumed.`,
    readings.salt ? '' : 'No salt was given; none is assumed, which makes the index a little too high for a salt pool.',
    readings['calcium-hardness'] ? '' : 'The strip’s total hardness stands in for the calcium.',
  ].filter(Boolean);
  return [
    h(
      'p',
      {},
      h('strong', {}, `Saturation index ${signed(found.index)}`),
      `${span}: ${sure ? '' : 'perhaps '}${verdictOf(found.index, target)}.`,
    ),
    h('p', { class: 'hint' }, notes.join(' ')),
  ];
}

function verdictOf(index: number, { low, high }: Target): string {
  if (index < low) return 'the water dissolves plaster, grout and metal';
  return index > high ? 'the water leaves scale' : 'in balance';
}

/** With its sign, and a real minus. */
export function signed(value: number): string {
  if (!Number.isFinite(value)) return value < 0 ? 'far below −1' : 'far above 1';
  const text = Math.abs(value).toFixed(1);
  return Number(text) === 0 ? '0.0' : `${value < 0 ? '−' : '+'}${text}`;
}
