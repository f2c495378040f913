/**
 * The plan's form: what is typed becomes the raw input of a plan, in metric.
 *
 * Every field says in `data-at` where its value belongs in that input, and in
 * `data-quantity` what it is converted as. The metric value of a field is kept
 * beside it, so that switching units and back changes nothing.
 */
import { convert, convertTemperature, type UnitSystem } from '../../core/water/units.ts';
import { MONTHS } from '../../core/pool/climate.ts';
import { QUANTITY_IDS } from '../../core/measurement/quantities.ts';
import { fieldNumber, type Plausible } from '../../core/typed/number.ts';
import { PLAUSIBLE, plausibleFor } from '../../core/typed/plausible.ts';
import { typedNumber } from '../typed.ts';

type Field = HTMLInputElement | HTMLSelectElement;
type Tree = Record<string, unknown>;

/** In metric first. */
const UNITS = {
  volume: ['L', 'US gal'],
  flow: ['L/h', 'gpm'],
  output: ['g/h', 'lb a day'],
  temperature: ['°C', '°F'],
  /** A difference of temperatures. */
  rise: ['°C', '°F'],
  length: ['m', 'ft'],
  area: ['m²', 'sq ft'],
  rain: ['mm', 'in'],
  percent: ['%', '%'],
  pressure: ['bar', 'psi'],
  litrePrice: ['a litre', 'a US gallon'],
  kilogramPrice: ['a kg', 'a lb'],
} as const;
type FieldQuantity = keyof typeof UNITS;

export function fieldsOf(form: HTMLElement): Field[] {
  return [...form.querySelectorAll<Field>('[data-at]')];
}

/** A field that only qualifies another one (`data-with`) says nothing while that one is blank. */
function hasCompany(form: HTMLElement, field: Field): boolean {
  const other = field.dataset['with'];
  return other === undefined || form.querySelector<Field>(`[data-at="${other}"]`)!.value.trim() !== '';
}

/** Nothing here is checked: that is for the schema, which has the sentences. */
export function collect(form: HTMLElement, units: UnitSystem): Tree {
  const input: Tree = {};
  for (const field of fieldsOf(form)) {
    const value = valueOf(field, units);
    if (value !== undefined && hasCompany(form, field)) put(input, field.dataset['at']!.split('.'), value);
  }
  input['shelf'] = shelfItems(form, units);
  if ((input['pool'] as Tree | undefined)?.['climate']) input['month'] = MONTHS[new Date().getMonth()];
  return input;
}

function shelfItems(form: HTMLElement, units: UnitSystem): Tree[] {
  return [...form.querySelectorAll<HTMLInputElement>('[data-product]:checked')].map((box) => {
    const id = box.dataset['product']!;
    const { strength, basis, age, price } = shelfFields(form, id);
    const number = (field: HTMLInputElement | null, plausible: Plausible) => {
      const typed = field && typedNumber(field, plausible);
      return typed === null ? undefined : typed;
    };
    const { learnt } = box.dataset;
    const told = {
      learntShare: learnt === undefined ? undefined : Number(learnt),
      strength: number(strength, PLAUSIBLE.percent),
      basis: basis?.value,
      ageMonths: number(age, PLAUSIBLE.percent),
      price: valueOf(price, units),
    };
    return { product: id, ...Object.fromEntries(Object.entries(told).filter(([, value]) => value !== undefined)) };
  });
}

/** What can be told of a product; basis and age only of liquid chlorine. */
export function shelfFields(form: HTMLElement, id: string) {
  const field = (name: string) => form.querySelector<HTMLInputElement>(`[data-${name}-of="${id}"]`);
  return {
    strength: field('strength')!,
    basis: form.querySelector<HTMLSelectElement>(`[data-basis-of="${id}"]`),
    age: field('age'),
    price: field('price')!,
  };
}

export function valueOf(field: Field, units: UnitSystem): number | string | boolean | undefined {
  if (field instanceof HTMLInputElement && field.type === 'checkbox') return field.checked;
  if (field instanceof HTMLSelectElement) return yesNo(field.value);
  const { metric, shown } = field.dataset;
  if (metric !== undefined && shown === field.value) return Number(metric);
  const typed = typedNumber(field, plausibleAt(field, units));
  return typed === null ? undefined : toMetric(quantityOf(field), typed, units);
}

/** Fills a field with a metric number, shown to four figures, as money, or as `shown` says. */
export function fill(field: Field, metric: number, units: UnitSystem, shown?: string): void {
  const quantity = quantityOf(field);
  const value = fromMetric(quantity, metric, units);
  field.value = shown ?? (isPrice(quantity) ? value.toFixed(2) : fieldNumber(value, 4));
  field.dataset['metric'] = String(metric);
  field.dataset['shown'] = field.value;
}

/** Shows every converted field, and every unit, in the other system. */
export function switchUnits(form: HTMLElement, from: UnitSystem, to: UnitSystem): void {
  for (const field of form.querySelectorAll<Field>('input[data-quantity]')) {
    const metric = valueOf(field, from);
    if (typeof metric === 'number' && !Number.isNaN(metric)) fill(field, metric, to);
  }
  for (const label of form.querySelectorAll<HTMLElement>('[data-unit-of]')) {
    label.textContent = UNITS[label.dataset['unitOf'] as FieldQuantity][to === 'metric' ? 0 : 1];
  }
}

/** What the field can hold, in its own unit. */
function plausibleAt(field: HTMLInputElement, units: UnitSystem): Plausible | undefined {
  const quantity = quantityOf(field);
  const id = QUANTITY_IDS.find((each) => field.dataset['at']?.split('.').includes(each));
  if (id) {
    const { min, max } = plausibleFor(id);
    return { min: fromMetric(quantity, min, units), max: fromMetric(quantity, max, units) };
  }
  if (quantity === 'percent') return PLAUSIBLE.percent;
  if (isPrice(quantity)) return PLAUSIBLE.price;
  if (quantity === undefined || quantity === 'temperature' || quantity === 'rise') return undefined;
  const { min, max } = PLAUSIBLE[quantity];
  return { min: fromMetric(quantity, min, units), max: fromMetric(quantity, max, units) };
}

function quantityOf(field: Field): FieldQuantity | undefined {
  return field.dataset['quantity'] as FieldQuantity | undefined;
}

function isPrice(quantity: FieldQuantity | undefined): quantity is 'litrePrice' | 'kilogramPrice' {
  return quantity === 'litrePrice' || quantity === 'kilogramPrice';
}

/** The same two units as above, by their names in the core. */
function converted(quantity: FieldQuantity, value: number, toMetric: boolean): number {
  switch (quantity) {
    case 'percent':
      return value;
    case 'rise':
      return toMetric ? convertTemperature(value + 32, 'F', 'C') : convertTemperature(value, 'C', 'F') - 32;
    // A gallon costs more than a litre: the other way round than for amounts.
    case 'litrePrice':
      return toMetric ? convert('volume', value, 'L', 'gal') : convert('volume', value, 'gal', 'L');
    case 'kilogramPrice':
      return toMetric ? convert('mass', value, 'kg', 'lb') : convert('mass', value, 'lb', 'kg');
    case 'pressure':
      return toMetric ? convert(quantity, value, 'psi', 'bar') : convert(quantity, value, 'bar', 'psi');
    case 'volume':
      return toMetric ? convert(quantity, value, 'gal', 'L') : convert(quantity, value, 'L', 'gal');
    case 'flow':
      return toMetric ? convert(quantity, value, 'gal/min', 'L/h') : convert(quantity, value, 'L/h', 'gal/min');
    case 'output':
      return toMetric ? convert(quantity, value, 'lb/day', 'g/h') : convert(quantity, value, 'g/h', 'lb/day');
    case 'length':
      return toMetric ? convert(quantity, value, 'ft', 'm') : convert(quantity, value, 'm', 'ft');
    case 'rain':
      return toMetric ? convert('length', value, 'in', 'mm') : convert('length', value, 'mm', 'in');
    case 'area':
      return toMetric ? convert(quantity, value, 'ft2', 'm2') : convert(quantity, value, 'm2', 'ft2');
    case 'temperature':
      return toMetric ? convertTemperature(value, 'F', 'C') : convertTemperature(value, 'C', 'F');
  }
}

function toMetric(quantity: FieldQuantity | undefined, value: number, units: UnitSystem): number {
  if (quantity === 'percent') return value / 100;
  return units === 'metric' || !quantity ? value : converted(quantity, value, true);
}

function fromMetric(quantity: FieldQuantity | undefined, value: number, units: UnitSystem): number {
  if (quantity === 'percent') return value * 100;
  return units === 'metric' || !quantity ? value : converted(quantity, value, false);
}

function yesNo(value: string): string | boolean | undefined {
  if (value === '') return undefined;
  return value === 'yes' ? true : value === 'no' ? false : value;
}

function put(tree: Tree, [key, ...rest]: string[], value: unknown): void {
  const branch = tree;
  if (rest.length === 0) branch[key!] = value;
  else put((branch[key!] ??= {}) as Tree, rest, value);
}
