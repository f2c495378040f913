/** Each reading against where it should lie, and whose range that is. */
import type { Known } from '../../core/water/plan/spanned.ts';
import type { Finding, Plan } from '../../core/water/plan/types.ts';
import { targetName } from '../../words/plan/names.ts';
import { endsOf, fixed, readingNumber, readingUnit } from '../../words/plan/numbers.ts';
import { findingText, findingWord } from '../../words/plan/sentences.ts';
import { capitalised } from '../../words/grammar.ts';
import { provenanceText } from '../../words/provenance.ts';
import type { Target, TargetId } from '../../core/water/targets.ts';
import type { UnitSystem } from '../../core/water/units.ts';
import { h } from '../dom.ts';
import { explained } from './sections.ts';

/** Whose ranges they are, as lettered notes under the table. */
class Notes {
  readonly #texts: string[] = [];

  letter(text: string): string {
    if (!this.#texts.includes(text)) this.#texts.push(text);
    return String.fromCharCode(97 + this.#texts.indexOf(text));
  }

  list(): HTMLElement {
    return h('ol', { class: 'notes' }, ...this.#texts.map((text) => h('li', {}, text)));
  }
}

/** The saturation index has a drawing of its own. */
export function findingsTable({ findings, targets }: Plan, units: UnitSystem): HTMLElement {
  const notes = new Notes();
  const rows = findings
    .filter(({ target }) => target !== 'saturation-index')
    .map((finding) => row(finding, targets[finding.target], units, notes));
  const head = ['Reading', 'Measured', 'Should be', 'That is'].map((text) => h('th', { scope: 'col' }, text));
  return h(
    'div',
    {},
    h('table', { class: 'ranges' }, h('thead', {}, h('tr', {}, ...head)), h('tbody', {}, ...rows)),
    notes.list(),
  );
}

function row(finding: Finding, range: Target, units: UnitSystem, notes: Notes): HTMLElement {
  const { target, known } = finding;
  const word = findingWord(finding);
  const marked = word === 'low' || word === 'high';
  const measured = known && known.from !== 'assumed' ? measuredCell(target, known, units) : ['–'];
  const span = `${number(target, range.low, units)} to ${number(target, range.high, units)}${unit(target, units)} `;
  return h(
    'tr',
    {},
    h('th', { scope: 'row' }, explained(target, capitalised(targetName(target)))),
    h('td', {}, ...measured),
    h('td', {}, span, sourceLetters(range, notes)),
    h('td', {}, h('em', { class: marked ? 'word marked' : 'word' }, findingText(finding))),
  );
}

function measuredCell(target: TargetId, known: Known, units: UnitSystem): (HTMLElement | string)[] {
  const value = number(target, known.value, units);
  const [down, up] = endsOf(known);
  const [low, high] = [number(target, known.low, units, down), number(target, known.high, units, up)];
  const from = known.from === 'derived' ? 'worked out, ' : '';
  // Beyond the scale only its end is known; where the scale merely ends too soon, so does what is known of that side.
  if (known.open === 'above')
    return known.low < known.value ? [value, h('small', {}, `${from}${low} or more`)] : [`over ${value}`];
  if (known.open === 'below')
    return known.high > known.value ? [value, h('small', {}, `${from}${high} or less`)] : [`under ${value}`];
  return [value, ...(low === high ? [] : [h('small', {}, `${from}${low} to ${high}`)])];
}

function number(target: TargetId, value: number, units: UnitSystem, round = Math.round): string {
  return target === 'saturation-index' ? fixed(value, 1, round) : readingNumber(target, value, units, round);
}

function unit(target: TargetId, units: UnitSystem): string {
  return target === 'saturation-index' ? '' : readingUnit(target, units);
}

function sourceLetters(target: Target, notes: Notes): HTMLElement {
  const texts = target.edited ? ['set by you'] : [provenanceText(target.lowFrom), provenanceText(target.highFrom)];
  const letters = [...new Set(texts.map((text) => notes.letter(text)))].join(', ');
  return h('sup', {}, h('span', { class: 'visually-hidden' }, 'note '), letters);
}
