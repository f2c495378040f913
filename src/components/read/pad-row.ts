/** One pad on the reading sheet: number, name, value, word, ribbon, and a place to correct it. */
import { settings } from '../../browser/settings.ts';
import { quantityTitle } from '../../words/quantities.ts';
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
  caveatText,
  openText,
  ribbonText,
  spanText,
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
  const name = quantityTitle(pad.quantity);
  const word = wordFor(entry);
  const caveat = caveatText(entry);
  const truth = truthText(entry);
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
      'p',
      { class: 'pad-value' },
      h('strong', {}, valueText(entry)),
      unitText(entry) ? h('span', { class: 'unit' }, unitText(entry)) : null,
    ),
    h('div', { class: 'ribbon-frame' }, ribbonOf(entry)),
    h(
      'p',
      { class: 'pad-word' },
      word && h('em', { class: word.marked ? 'word marked' : 'word' }, h('a', { href: wordHref(entry) }, word.text)),
      spanText(entry) ? h('span', { class: 'span' }, spanText(entry)) : null,
      truth === null ? null : h('span', { class: 'truth' }, truth),
      timingMark(entry) ? h('em', { class: 'word marked timing' }, timingMark(entry)) : null,
    ),
    caveat ? h('p', { class: 'pad-notes' }, caveat) : null,
    more(entry, name, teach, onCorrect),
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

/** What can wait: where the value should lie, what the eyes could tell, and a place to correct it. */
function more(
  entry: Entry,
  name: string,
  teach: HTMLElement | null,
  onCorrect: (byHand: ByHand | null) => void,
): HTMLElement {
  const said = [openText(entry), targetText(entry), eyesText(entry, settings.eyes())].filter(Boolean).join(' ');
  const label = h('summary', {}, 'More', h('span', { class: 'visually-hidden' }, `, or correct by hand: ${name}`));
  return h(
    'details',
    { class: 'correct no-print', open: entry.byHand !== null && teach !== null },
    label,
    said ? h('p', { class: 'pad-notes' }, said) : null,
    correction(entry, name, onCorrect),
    teach,
  );
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
  return form;
}
