/** One pad on the reading sheet: number, name, value, word, ribbon, and a place to correct it. */
import { settings } from '../../browser/settings.ts';
import { parameterName } from '../../words/reading.ts';
import { type TypedMethod, TYPED_METHODS } from '../../core/measurement/methods.ts';
import { unitOf } from '../../core/measurement/quantities.ts';
import type { ByHand } from '../../core/reading/measured.ts';
import { wordOf } from '../../core/reading/word.ts';
import { h } from '../dom.ts';
import { href } from '../href.ts';
import { learnPath } from '../explainers.ts';
import { METHOD_CHOICES } from '../../words/methods.ts';
import { renderRibbon } from '../ribbon/drawing.ts';
import { type Entry, estimatesOf } from '../../core/reading/entry.ts';
import {
  eyesText,
  intervalText,
  ribbonText,
  targetText,
  timingMark,
  truthText,
  unitText,
  valueText,
  wordFor,
} from '../../words/sheet.ts';
import { fieldNumber } from '../../core/typed/number.ts';
import { plausibleFor } from '../../core/typed/plausible.ts';
import { NOT_A_VALUE } from '../../words/typed.ts';
import { isAsking, typedNumber } from '../typed.ts';

/**
 * @param number the pad's number on the card picture
 * @param teach lets the scale learn the value by hand; null where it can't
 */
export function padRow(
  entry: Entry,
  number: number,
  teach: HTMLElement | null,
  onCorrect: (byHand: ByHand | null) => void,
): HTMLElement {
  const { pad, byHand } = entry;
  const name = parameterName(pad.quantity);
  const word = wordFor(entry);
  return h(
    'li',
    { class: byHand === null ? 'pad' : 'pad by-hand', 'data-parameter': pad.quantity },
    h(
      'h3',
      {},
      h('span', { class: 'pad-number' }, String(number)),
      h('a', { href: href(learnPath(pad.quantity)) }, name),
    ),
    h(
      'div',
      { class: 'pad-body' },
      h(
        'p',
        { class: 'pad-value' },
        h('strong', {}, valueText(entry)),
        unitText(entry) ? h('span', { class: 'unit' }, unitText(entry)) : null,
        word && h('em', { class: word.marked ? 'word marked' : 'word' }, h('a', { href: wordHref(entry) }, word.text)),
        timingMark(entry) ? h('em', { class: 'word marked timing' }, timingMark(entry)) : null,
      ),
      h('div', { class: 'ribbon-frame' }, ribbonOf(entry)),
    ),
    h(
      'p',
      { class: 'pad-notes' },
      [intervalText(entry), targetText(entry), eyesText(entry, settings.eyes()), truthText(entry)]
        .filter(Boolean)
        .join(' '),
    ),
    correction(entry, name, onCorrect),
    teach,
  );
}

/** Where the word of the first value is explained. */
function wordHref({ pad, byHand, target }: Entry): string {
  const judged = byHand === null ? pad : { matched: true, offScale: null, value: byHand.value };
  return href(learnPath(pad.quantity, wordOf(judged, target) ?? undefined));
}

function ribbonOf(entry: Entry): SVGElement {
  const { scalePad, target, pad, byHand } = entry;
  const offScale = byHand === null ? pad.offScale : null;
  const [openBelow, openAbove] = byHand === null ? [pad.openBelow, pad.openAbove] : [false, false];
  const estimates = estimatesOf(entry);
  return renderRibbon({ pad: scalePad, target, estimates, offScale, openBelow, openAbove }, ribbonText(entry));
}

function correction({ pad, byHand }: Entry, name: string, onCorrect: (byHand: ByHand | null) => void): HTMLElement {
  const unit = unitOf(pad.quantity);
  const { min, max } = unit === 'pH' ? { min: 0, max: 14 } : { min: 0, max: 100_000 };
  const input = h('input', {
    inputmode: 'decimal',
    autocomplete: 'off',
    required: true,
    value: byHand && fieldNumber(byHand.value),
    'aria-label': `${name} by another test${unit === 'pH' ? '' : `, in ${unit}`}`,
  });
  const options = TYPED_METHODS.map((method) =>
    h('option', { value: method, selected: method === (byHand?.method ?? 'unsaid') }, METHOD_CHOICES[method]),
  );
  const method = h('select', { 'aria-label': `${name}: measured with` }, ...options);
  const form = h('form', {}, input, ' ', method, ' ', h('button', { type: 'submit' }, 'Use this'));
  if (byHand !== null) {
    const back = h('button', { type: 'button', class: 'plain' }, 'Back to the photo’s value');
    back.addEventListener('click', () => onCorrect(null));
    form.append(back);
  }
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    const typed = typedNumber(input, plausibleFor(pad.quantity)) ?? NaN;
    const isGood = typed >= min && typed <= max;
    if (isGood) return onCorrect({ value: typed, method: method.value as TypedMethod });
    if (isAsking(form)) return;
    input.setCustomValidity(NOT_A_VALUE);
    input.reportValidity();
  });
  input.addEventListener('input', () => input.setCustomValidity(''));
  const label = h('summary', {}, 'Correct by hand', h('span', { class: 'visually-hidden' }, `: ${name}`));
  return h('details', { class: 'correct no-print' }, label, form);
}
