/** A plan's input back into the form that it came from. */
import { unitOf } from '../../core/measurement/quantities.ts';
import { QUANTITY_IDS } from '../../core/measurement/quantities.ts';
import type { UnitSystem } from '../../core/water/units.ts';
import { formatMeasured } from '../../words/numbers.ts';
import { fieldsOf, fill } from './form.ts';

/** @param input of a plan; what it doesn't say is blank, or as a choice stands by itself */
export function fillForm(form: HTMLElement, input: Readonly<Record<string, unknown>>, units: UnitSystem): void {
  for (const field of fieldsOf(form)) {
    const path = field.dataset['at']!.split('.');
    const value = path.reduce<unknown>((part, key) => (part as Record<string, unknown> | undefined)?.[key], input);
    put(field, value, units, path);
  }
  const shelf = Array.isArray(input['shelf']) ? (input['shelf'] as Record<string, unknown>[]) : [];
  for (const box of form.querySelectorAll<HTMLInputElement>('[data-product]')) {
    const id = box.dataset['product']!;
    const item = shelf.find(({ product }) => product === id);
    box.checked = item !== undefined;
    for (const [name, key] of [
      ['strength', 'strength'],
      ['basis', 'basis'],
      ['age', 'ageMonths'],
    ] as const) {
      const field = form.querySelector<HTMLInputElement | HTMLSelectElement>(`[data-${name}-of="${id}"]`);
      if (field && item) field.value = textOf(item[key]);
    }
  }
}

function put(field: HTMLInputElement | HTMLSelectElement, value: unknown, units: UnitSystem, path: string[]): void {
  if (field instanceof HTMLInputElement && field.type === 'checkbox') field.checked = value === true;
  else if (field instanceof HTMLSelectElement) select(field, value);
  else if (typeof value === 'number') {
    const quantity = path[0] === 'readings' ? QUANTITY_IDS.find((id) => id === path[1]) : undefined;
    fill(
      field,
      value,
      units,
      quantity && quantity !== 'temperature' ? formatMeasured(value, unitOf(quantity)) : undefined,
    );
  } else {
    field.value = textOf(value);
    delete field.dataset['metric'];
  }
}

function select(field: HTMLSelectElement, value: unknown): void {
  const text = typeof value === 'boolean' ? (value ? 'yes' : 'no') : textOf(value);
  if ([...field.options].some((option) => option.value === text)) field.value = text;
}

function textOf(value: unknown): string {
  return typeof value === 'number' || typeof value === 'string' ? String(value) : '';
}
