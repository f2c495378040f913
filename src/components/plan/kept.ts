/** The pool, the shelf and the units, kept on this device between visits. */
import { type Bottle, keepTyped, keptForm } from '../../browser/plan-form.ts';
import { settings } from '../../browser/settings.ts';
import { PLAUSIBLE } from '../../core/typed/plausible.ts';
import { readTyped } from '../typed.ts';
import type { UnitSystem } from '../../core/water/units.ts';
import { fill, shelfFields, valueOf } from './form.ts';

export function keep(form: HTMLElement, units: UnitSystem): void {
  settings.setUnits(units);
  const shelf = [...form.querySelectorAll<HTMLInputElement>('[data-product]:checked')].map((box) => {
    const id = box.dataset['product']!;
    return [id, shelfFields(form, id).strength.value] as const;
  });
  // What the pool's record has and this form doesn't ask stays.
  const fields = { ...keptForm()?.fields, ...fieldsIn(form, units) };
  keepTyped({ fields, shelf: Object.fromEntries(shelf), bottles: bottlesIn(form, units) });
}

/** By their place in the plan's input; undefined where they are blank. */
export function fieldsIn(form: HTMLElement, units: UnitSystem): Record<string, unknown> {
  return Object.fromEntries(keptFields(form).map((field) => [field.dataset['at']!, rawValue(field, units)]));
}

/** Of what was told more than its strength. */
function bottlesIn(form: HTMLElement, units: UnitSystem): Record<string, Bottle> {
  const boxes = [...form.querySelectorAll<HTMLInputElement>('[data-product]')];
  const told = boxes.map((box): [string, Bottle] => {
    const { basis, age, price } = shelfFields(form, box.dataset['product']!);
    const months = age ? Number(age.value) : NaN;
    const metricPrice = valueOf(price, units);
    return [
      box.dataset['product']!,
      {
        ...(basis && { basis: basis.value }),
        ...(age?.value && Number.isFinite(months) && { made: madeBefore(months) }),
        ...(typeof metricPrice === 'number' && {
          price: Number.isFinite(metricPrice) ? String(metricPrice) : price.value,
        }),
      },
    ];
  });
  return Object.fromEntries(told.filter(([, bottle]) => Object.keys(bottle).length > 0));
}

/** Days of a mean month. */
const MONTH_DAYS = 30.44;
const DAY_MILLIS = 86_400_000;

/** An age grows by itself, so its beginning is kept. */
function madeBefore(months: number): string {
  return new Date(Date.now() - months * MONTH_DAYS * DAY_MILLIS).toISOString().slice(0, 10);
}

function monthsSince(made: string): string {
  const months = (Date.now() - Date.parse(made)) / (MONTH_DAYS * DAY_MILLIS);
  return Number.isFinite(months) ? String(Math.round(Math.max(0, months) * 10) / 10) : '';
}

function fillBottle(form: HTMLElement, id: string, { basis, made, price }: Bottle, units: UnitSystem): void {
  const fields = shelfFields(form, id);
  if (basis && fields.basis && hasOption(fields.basis, basis)) fields.basis.value = basis;
  if (made && fields.age) fields.age.value = monthsSince(made);
  if (!price) return;
  const kept = readTyped(price, PLAUSIBLE.price);
  if (kept.kind === 'number') fill(fields.price, kept.value, units);
  else fields.price.value = price;
}

/**
 * Fills the form with what was kept; whatever isn't as this page wrote it is passed over.
 * @param typed is what the visitor has just put in, and stays
 */
export function restore(form: HTMLElement, typed?: HTMLElement): UnitSystem {
  const units = settings.units();
  const kept = keptForm();
  if (!kept) return units;
  for (const field of keptFields(form)) {
    const value = kept.fields[field.dataset['at']!];
    if (field === typed) continue;
    if (typeof value === 'number' && Number.isFinite(value)) fill(field, value, units);
    else if (typeof value === 'string' && hasOption(field, value)) field.value = value;
    else if (field instanceof HTMLInputElement) field.value = '';
  }
  if (!kept.shelf) return units;
  for (const box of form.querySelectorAll<HTMLInputElement>('[data-product]')) {
    const id = box.dataset['product']!;
    const strength = kept.shelf[id];
    box.checked = strength !== undefined;
    if (typeof strength === 'string') shelfFields(form, id).strength.value = strength;
    fillBottle(form, id, kept.bottles[id] ?? {}, units);
  }
  return units;
}

function keptFields(form: HTMLElement): (HTMLInputElement | HTMLSelectElement)[] {
  return [...form.querySelectorAll<HTMLInputElement | HTMLSelectElement>('[data-keep]')];
}

function rawValue(field: HTMLInputElement | HTMLSelectElement, units: UnitSystem): unknown {
  return field instanceof HTMLSelectElement ? field.value : valueOf(field, units);
}

function hasOption(field: HTMLInputElement | HTMLSelectElement, value: string): boolean {
  return field instanceof HTMLSelectElement && [...field.options].some((option) => option.value === value);
}
