/** Where the water lies between etching and scaling, and how much of its chlorine works. */
import type { Span } from '../../core/water/plan/spanned.ts';
import type { Plan } from '../../core/water/plan/types.ts';
import { fixed, spanText, activeNumber } from '../../words/plan/numbers.ts';
import type { TargetSpan } from '../../core/water/targets.ts';
import { signed } from '../../words/figures.ts';
import { h } from '../dom.ts';
import { href } from '../href.ts';
import { toElement } from '../svg.ts';
import { drawWaterLine } from './water-line.ts';

export function waterView({ now, targets, findings }: Plan): HTMLElement {
  const finding = findings.find(({ target }) => target === 'saturation-index');
  const guessed = finding?.known?.from === 'assumed';
  const index = now.saturationIndex;
  return h(
    'div',
    {},
    drawing(index, targets['saturation-index']),
    h(
      'p',
      {},
      h('a', { href: href('learn/saturation-index/') }, 'Saturation index'),
      ` ${spanText(index, indexText)}: ${verdict(index, targets['saturation-index'])}.`,
      guessed ? ' Part of what it takes was not measured, so this rests on an assumption.' : '',
    ),
    activeChlorine(now),
  );
}

function drawing(index: Span, target: TargetSpan): HTMLElement {
  const text =
    `Saturation index ${spanText(index, indexText)}. ` +
    `It should lie between ${signed(target.low)} and ${signed(target.high)}.`;
  const drawn = drawWaterLine({ index: index.value, low: index.low, high: index.high, target }, text);
  return h(
    'figure',
    { class: 'water-figure' },
    toElement(drawn),
    h(
      'figcaption',
      { class: 'water-line-ends' },
      h('span', {}, 'eats plaster, grout and metal'),
      h('span', {}, 'in balance'),
      h('span', {}, 'leaves scale'),
    ),
  );
}

function verdict({ value, low, high }: Span, target: TargetSpan): string {
  const sure = sideOf(low, target) === sideOf(high, target);
  switch (sideOf(value, target)) {
    case 'below':
      return sure ? 'the water dissolves what holds lime, and metal' : 'the water may be dissolving what holds lime';
    case 'above':
      return sure ? 'the water leaves scale' : 'the water may be leaving scale';
    case 'inside':
      return sure ? 'in balance' : 'likely in balance';
  }
}

function sideOf(index: number, { low, high }: TargetSpan): 'below' | 'inside' | 'above' {
  if (index < low) return 'below';
  return index > high ? 'above' : 'inside';
}

function activeChlorine({ spans, activeChlorine: active, active: { share } }: Plan['now']): HTMLElement | null {
  if (spans.freeChlorine.value <= 0) return null;
  return h(
    'p',
    {},
    `Of the free chlorine, ${fixed(100 * share, 1)} % is active now: `,
    `${spanText(active, activeNumber)} mg/L of hypochlorous acid, the part that disinfects. `,
    'pH and stabilizer hold the rest; the span includes that two published sets of constants differ.',
  );
}

function indexText(value: number): string {
  if (!Number.isFinite(value)) return value < 0 ? 'far below −1' : 'far above 1';
  return signed(value);
}
