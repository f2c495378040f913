/** Typed numbers, read by the visitor's languages. A field whose number has two meanings asks which is meant. */
import { fieldNumber, type Plausible, readNumber, type TypedNumber } from '../core/typed/number.ts';
import { LANGUAGE } from '../words/grammar.ts';
import { choiceOfNumber, WHICH_NUMBER } from '../words/typed.ts';
import { h } from './dom.ts';

/** The language of the page counts beside the visitor's own: its numbers are what they see here. */
export function readTyped(text: string, plausible?: Plausible): TypedNumber {
  return readNumber(text, [...navigator.languages, LANGUAGE], plausible);
}

/** What a field says: null where it is blank, NaN where it is no number or one of two; then it asks which. */
export function typedNumber(field: HTMLInputElement, plausible?: Plausible): number | null {
  const typed = readTyped(field.value, plausible);
  if (typed.kind === 'unclear') ask(field, typed.values);
  else questions.get(field)?.remove();
  return valueOf(typed);
}

/** Null for a blank, NaN where there is no one number. */
export function valueOf(typed: TypedNumber): number | null {
  if (typed.kind === 'blank') return null;
  return typed.kind === 'number' ? typed.value : NaN;
}

/** A field of the form still waits to be told which number is meant. */
export function isAsking(form: ParentNode): boolean {
  return form.querySelector('.which-number') !== null;
}

const questions = new WeakMap<HTMLInputElement, HTMLElement>();

function ask(field: HTMLInputElement, values: readonly number[]): void {
  const before = questions.get(field);
  if (before?.isConnected && before.dataset['of'] === field.value) return;
  before?.remove();
  const buttons = values.map((value) => {
    const button = h('button', { type: 'button' }, choiceOfNumber(value));
    button.addEventListener('click', () => {
      field.value = fieldNumber(value, 12);
      question.remove();
      for (const type of ['input', 'change']) field.dispatchEvent(new Event(type, { bubbles: true }));
      field.focus();
    });
    return button;
  });
  const attributes = { class: 'field-issue which-number', role: 'status', 'data-of': field.value };
  const question = h('span', attributes, `${WHICH_NUMBER} `, ...buttons);
  field.addEventListener('input', () => question.remove(), { once: true });
  questions.set(field, question);
  (field.closest('label, .measure') ?? field).after(question);
}
