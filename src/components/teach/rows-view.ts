/** The rows as fields to fill in: what each measures, and the value printed beside each block. */
import { PAD_QUANTITIES, type PadQuantity } from '../../core/measurement/quantities.ts';
import { quantityTitle } from '../../words/quantities.ts';
import type { RowProblem, RowUnit } from '../../core/scale/row-problem.ts';
import { h } from '../dom.ts';
import {
  filledBySteps,
  filledFrom,
  listOf,
  type Row,
  unitsFor,
  unlikelyValues,
  withParameter,
  withValue,
} from './rows.ts';
import { type PictureSource, rowPicture } from './row-picture.ts';
import { blocksText, problemText, rowUnitText, unlikelyText } from '../../words/teach.ts';
import { typedNumber } from '../typed.ts';

export interface RowsEvents {
  /** The row is to change; the fields show it already unless `redraw`. */
  readonly onChange: (index: number, change: (row: Row) => Row, redraw: boolean) => void;
  readonly onRemove: (index: number) => void;
  /** Taps go to this row from now on. */
  readonly onCurrent: (index: number) => void;
}

export interface RowsState {
  readonly rows: readonly Row[];
  readonly current: number;
  /** Empty until they have been asked for. */
  readonly problems: readonly (readonly RowProblem[])[];
  /** Values and what is measured are known already: only which row it is can be chosen. */
  readonly fixed: readonly PadQuantity[] | null;
  readonly source: PictureSource;
}

export class RowsView {
  readonly #root: HTMLElement;
  readonly #events: RowsEvents;

  constructor(root: HTMLElement, events: RowsEvents) {
    this.#root = root;
    this.#events = events;
  }

  draw(state: RowsState): void {
    const focused = (document.activeElement as HTMLElement | null)?.dataset['field'];
    this.#root.replaceChildren(...state.rows.map((row, i) => this.#row(row, i, state)));
    if (focused) this.#root.querySelector<HTMLElement>(`[data-field="${focused}"]`)?.focus();
  }

  /** Puts the focus on the first thing that is wrong. */
  focusProblem(): void {
    this.#root.querySelector<HTMLElement>('[aria-invalid=true]')?.focus();
  }

  #row(row: Row, i: number, state: RowsState): HTMLElement {
    const name = `Row ${i + 1}`;
    const problems = state.problems[i] ?? [];
    const unlikely = unlikelyValues(row);
    const picture = rowPicture(state.source, row);
    return h(
      'fieldset',
      { class: i === state.current ? 'chart-row current' : 'chart-row' },
      h('legend', {}, `${name}: ${blocksText(row.marks.length)}`),
      this.#what(row, i, state),
      picture && h('div', { class: 'row-picture', 'aria-hidden': 'true' }, picture),
      this.#blocks(row, i, state),
      state.fixed ? null : this.#fill(i),
      ...problems.map((problem) => h('p', { class: 'wrong', id: `row-${i}-wrong` }, problemText(problem))),
      unlikely.length > 0 && problems.length === 0 ? h('p', { class: 'hint' }, unlikelyText(unlikely)) : null,
      this.#tools(i, state),
    );
  }

  #what(row: Row, i: number, { problems, fixed }: RowsState): HTMLElement {
    const wrong = (problems[i] ?? []).some(({ code }) => code === 'no-parameter' || code === 'parameter-twice');
    const choices = fixed ?? PAD_QUANTITIES;
    const select = h(
      'select',
      { 'data-field': `what-${i}`, 'aria-invalid': wrong && 'true', 'aria-describedby': wrong && `row-${i}-wrong` },
      h('option', { value: '' }, 'Choose…'),
      ...choices.map((id) => h('option', { value: id, selected: id === row.parameter }, quantityTitle(id))),
    );
    select.addEventListener('change', () => {
      const parameter = select.value === '' ? null : (select.value as PadQuantity);
      // Drawn anew, the list would forget what letters were typed to choose from it.
      this.#events.onChange(i, (before) => withParameter(before, parameter), fixed !== null);
      if (!fixed) units.replaceChildren(...this.#unit(withParameter(row, parameter), i));
    });
    const units = h('span', {}, ...(fixed ? [] : this.#unit(row, i)));
    return h('p', { class: 'row-what' }, h('label', {}, 'Measures ', select), units);
  }

  #unit(row: Row, i: number): HTMLElement[] {
    const units = unitsFor(row.parameter);
    if (row.parameter === null || units[0] === 'pH') return [];
    if (units.length === 1) return [h('span', { class: 'hint' }, `in ${rowUnitText(units[0]!)}`)];
    const select = h(
      'select',
      { 'data-field': `unit-${i}` },
      ...units.map((unit) => h('option', { value: unit, selected: unit === row.unit }, rowUnitText(unit))),
    );
    select.addEventListener('change', () => {
      this.#events.onChange(i, (before) => ({ ...before, unit: select.value as RowUnit }), false);
    });
    return [h('label', {}, 'printed in ', select)];
  }

  #blocks(row: Row, i: number, { problems, fixed }: RowsState): HTMLElement {
    const wrong = (problems[i] ?? []).find(({ code }) => code !== 'no-parameter' && code !== 'parameter-twice');
    const items = row.marks.map(({ block, value }, k) => {
      const swatch = h('span', { class: 'swatch', 'aria-hidden': 'true' });
      const [r, g, b] = block.sample.rgb.map((channel) => Math.round(255 * channel)) as [number, number, number];
      swatch.style.backgroundColor = `rgb(${r} ${g} ${b})`;
      if (fixed) return h('li', {}, swatch, h('span', {}, value === '' ? '–' : value));
      const badBlock = wrong !== undefined && (!('block' in wrong) || wrong.block === k);
      const input = h('input', {
        type: 'text',
        inputmode: 'decimal',
        autocomplete: 'off',
        value,
        'data-field': `value-${i}-${k}`,
        'aria-label': `Row ${i + 1}, value of block ${k + 1}`,
        'aria-invalid': badBlock && 'true',
        'aria-describedby': badBlock && `row-${i}-wrong`,
      });
      this.#listenToValue(input, i, k);
      return h('li', {}, swatch, input);
    });
    return h('ol', { class: 'blocks', 'aria-label': `Blocks of row ${i + 1}` }, ...items);
  }

  #listenToValue(input: HTMLInputElement, i: number, k: number): void {
    input.addEventListener('input', () => {
      const list = listOf(input.value);
      if (list.length > 1) this.#events.onChange(i, (row) => filledFrom(row, k, list), true);
      else this.#events.onChange(i, (row) => withValue(row, k, input.value), false);
    });
    input.addEventListener('focus', () => input.select());
  }

  #fill(i: number): HTMLElement {
    const field = (name: string) =>
      h('input', { type: 'text', inputmode: 'decimal', autocomplete: 'off', 'data-field': `${name}-${i}` });
    const [first, step] = [field('first'), field('step')];
    const button = h('button', { type: 'button' }, 'Fill');
    button.addEventListener('click', () => {
      const [from, by] = [typedNumber(first), typedNumber(step)].map((value) => value ?? NaN) as [number, number];
      if (Number.isNaN(from) || Number.isNaN(by)) return (Number.isNaN(from) ? first : step).focus();
      this.#events.onChange(i, (row) => filledBySteps(row, from, by), true);
    });
    return h(
      'details',
      { class: 'fill' },
      h('summary', {}, 'Fill by equal steps', h('span', { class: 'visually-hidden' }, `: row ${i + 1}`)),
      h('p', {}, h('label', {}, 'first value ', first), h('label', {}, 'step ', step), button),
    );
  }

  #tools(i: number, { current, fixed }: RowsState): HTMLElement {
    const radio = h('input', {
      type: 'radio',
      name: 'current-row',
      checked: i === current,
      'data-field': `current-${i}`,
    });
    radio.addEventListener('change', () => this.#events.onCurrent(i));
    const remove = h('button', { type: 'button', class: 'plain' }, `Remove row ${i + 1}`);
    remove.addEventListener('click', () => this.#events.onRemove(i));
    return h('p', { class: 'row-tools' }, fixed ? null : h('label', {}, radio, ' Blocks I tap go here'), remove);
  }
}
