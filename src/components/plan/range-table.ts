/** Each reading against where it should lie, and whose range that is. */
import type { Measured, ReadingId, Readings } from '../../core/pool/schema.ts';
import { wordText } from '../../core/reading/messages.ts';
import { wordOf } from '../../core/reading/word.ts';
import type { Provenance } from '../../core/water/provenance.ts';
import type { Target, TargetId, Targets } from '../../core/water/targets.ts';
import { h } from '../dom.ts';
import { formatInterval, formatMeasured, formatValue } from '../format.ts';

const ROWS: readonly (readonly [reading: ReadingId, target: TargetId, name: string])[] = [
  ['free-chlorine', 'free-chlorine', 'Free chlorine'],
  ['ph', 'ph', 'pH'],
  ['total-alkalinity', 'total-alkalinity', 'Total alkalinity'],
  ['total-hardness', 'calcium-hardness', 'Total hardness'],
  ['calcium-hardness', 'calcium-hardness', 'Calcium hardness'],
  ['cyanuric-acid', 'cyanuric-acid', 'Cyanuric acid'],
  ['salt', 'salt', 'Salt'],
];

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

/** @returns null when nothing was measured */
export function rangeTable(readings: Readings, targets: Targets): HTMLElement | null {
  const notes = new Notes();
  const rows = ROWS.flatMap(([reading, target, name]) => {
    const measured = readings[reading];
    return measured ? [row(name, reading === 'ph' ? 'pH' : 'mg/L', measured, targets[target], notes)] : [];
  });
  if (rows.length === 0) return null;
  const head = ['Reading', 'Measured', 'Should be', 'That is'].map((text) => h('th', { scope: 'col' }, text));
  return h(
    'section',
    {},
    h('h2', {}, 'Against the usual ranges'),
    h('table', { class: 'ranges' }, h('thead', {}, h('tr', {}, ...head)), h('tbody', {}, ...rows)),
    notes.list(),
  );
}

function row(name: string, unit: 'mg/L' | 'pH', measured: Measured, target: Target, notes: Notes): HTMLElement {
  const { value, low = value, high = value, offScale = null } = measured;
  const shown = offScale ? formatValue(value) : formatMeasured(value, unit);
  const span = low < high && !offScale ? h('small', {}, ` ${formatInterval(low, high, unit)}`) : null;
  const word = wordOf({ matched: true, value, offScale }, target);
  const sure = [low, high].every((end) => wordOf({ matched: true, value: end, offScale }, target) === word);
  const text = word === null ? '' : `${sure ? '' : word === 'in-range' ? 'likely ' : 'perhaps '}${wordText(word)}`;
  return h(
    'tr',
    {},
    h('th', { scope: 'row' }, name),
    h('td', {}, offScale === 'above' ? 'over ' : offScale === 'below' ? 'under ' : '', shown, span),
    h('td', {}, `${formatValue(target.low)} to ${formatValue(target.high)} `, sourceLetters(target, notes)),
    h('td', {}, h('em', { class: word === 'in-range' ? 'word' : 'word marked' }, text)),
  );
}

function sourceLetters(target: Target, notes: Notes): HTMLElement {
  const texts = target.edited ? ['set by you'] : [provenanceText(target.lowFrom), provenanceText(target.highFrom)];
  const letters = [...new Set(texts.map((text) => notes.letter(text)))].join(', ');
  return h('sup', {}, h('span', { class: 'visually-hidden' }, 'note '), letters);
}

export function provenanceText({ source, status }: Provenance): string {
  switch (status) {
    case 'common-practice':
      return 'common practice, no source';
    case 'memory':
      return `${source}; from memory, unverified`;
    case 'read-elsewhere':
      return `${source}; as quoted elsewhere`;
    case 'read':
      return source;
  }
}
