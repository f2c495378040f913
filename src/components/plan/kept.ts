/** The pool, the shelf and the units, kept on this device between visits. */
import { keepForm, keptForm } from '../../browser/plan-form.ts';
import { settings } from '../../browser/settings.ts';
import type { UnitSystem } from '../../core/water/units.ts';
import { fill, valueOf } from './form.ts';

export function keep(form: HTMLElement, units: UnitSystem): void {
  settings.setUnits(units);
  const fields = keptFields(form).map((field) => [field.dataset['at']!, rawValue(field, units)] as const);
  const shelf = [...form.querySelectorAll<HTMLInputElement>('[data-product]:checked')].map((box) => {
    const id = box.dataset['product']!;
    return [id, strengthField(form, id).value] as const;
  });
  keepForm({ fields: Object.fromEntries(fields), shelf: Object.fromEntries(shelf) });
}

/** Fills the form with what was kept; whatever isn't as this page wrote it is passed over. */
export function restore(form: HTMLElement): UnitSystem {
  const units = settings.units();
  const kept = keptForm();
  if (!kept) return units;
  for (const field of keptFields(form)) {
    const value = kept.fields[field.dataset['at']!];
    if (typeof value === 'number' && Number.isFinite(value)) fill(field, value, units);
    else if (typeof value === 'string' && hasOption(field, value)) field.value = value;
  }
  if (!kept.shelf) return units;
  for (const box of form.querySelectorAll<HTMLInputElement>('[data-product]')) {
    const id = box.dataset['product']!;
    const strength = kept.shelf[id];
    box.checked = strength !== undefined;
    if (typeof strength === 'string') strengthField(form, id).value = strength;
  }
  return units;
}

function keptFields(form: HTMLElement): (HTMLInputElement | HTMLSelectElement)[] {
  return [...form.querySelectorAll<HTMLInputElement | HTMLSelectElement>('[data-keep]')];
}

function rawValue(field: HTMLInputElement | HTMLSelectElement, units: UnitSystem): unknown {
  return field instanceof HTMLSelectElement ? field.value : valueOf(field, units);
}

function strengthField(form: HTMLElement, product: string): HTMLInputElement {
  return form.querySelector<HTMLInputElement>(`[data-strength-of="${product}"]`)!;
}

function hasOption(field: HTMLInputElement | HTMLSelectElement, value: string): boolean {
  return field instanceof HTMLSelectElement && [...field.options].some((option) => option.value === value);
}
