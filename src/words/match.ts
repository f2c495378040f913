/** What is said where learners match a strip to its chart by eye. */
import type { PadQuantity } from '../core/measurement/quantities.ts';
import { unitOf } from '../core/measurement/quantities.ts';
import { intervalFor } from '../core/measurement/methods.ts';
import type { DosedProduct, ErrorDose } from '../core/match/dose.ts';
import type { LearnerEyes, Light } from '../core/match/look.ts';
import type { Placement } from '../core/reading/place.ts';
import type { ScalePad } from '../core/scale/schema.ts';
import { liquid, litresOf, solid } from './figures.ts';
import { countText } from './grammar.ts';
import { formatInterval, formatMeasured, formatValue, numberText } from './numbers.ts';

export const LIGHT_CHOICES: Readonly<Record<Light, string>> = {
  day: 'Shade by day',
  lamp: 'A warm lamp',
  dusk: 'Dusk',
};

export const EYE_CHOICES: Readonly<Record<LearnerEyes, string>> = {
  full: 'All colours',
  protan: 'Reds weak (protan)',
  deutan: 'Greens weak (deutan)',
  tritan: 'Blues weak (tritan)',
  none: 'No colours at all',
};

const PRODUCTS: Readonly<Record<DosedProduct, string>> = {
  'hydrochloric-acid': 'hydrochloric acid',
  'soda-ash': 'soda ash',
  'sodium-bicarbonate': 'baking soda',
  'calcium-chloride': 'calcium chloride',
  'cyanuric-acid': 'stabilizer',
  salt: 'salt',
  'liquid-chlorine': 'liquid chlorine',
};

/** A block, or half way between two: "7.2", "between 7.2 and 7.5". */
export function choiceText(pad: ScalePad, block: number): string {
  const [lower, upper] = [pad.blocks[Math.floor(block)]!, pad.blocks[Math.ceil(block)]!];
  return lower === upper
    ? formatValue(lower.value)
    : `between ${formatValue(lower.value)} and ${formatValue(upper.value)}`;
}

export function truthAndEyeText(quantity: PadQuantity, truth: number, read: string, steps: number): string {
  const unit = unitOf(quantity);
  const off = Math.abs(steps);
  const how =
    off < 0.25
      ? 'that is as near as blocks can be'
      : `${numberText(off, { decimals: 1 })} blocks too ${steps > 0 ? 'high' : 'low'}`;
  return `True: ${withUnit(formatMeasured(truth, unit), quantity)}. By eye: ${read}, ${how}.`;
}

export function photoText(quantity: PadQuantity, { best, matched }: Placement): string {
  if (!matched) return 'The photo would have given no value.';
  const unit = unitOf(quantity);
  const span = formatInterval(best.low, best.high, unit);
  return `A photo would have said ${withUnit(formatMeasured(best.value, unit), quantity)}, likely ${span}.`;
}

export function doseText(dose: ErrorDose | null, litres: number): string {
  if (!dose) return '';
  const amount = dose.form === 'liquid' ? liquid(dose.amount) : solid(dose.amount);
  const pool = `in a pool of ${litresOf(litres, 100)}`;
  const what = `${amount} of ${PRODUCTS[dose.product]}`;
  return dose.kind === 'needless'
    ? `Dosed by that, ${pool} up to ${what} goes in for nothing.`
    : `Dosed by that, ${pool} up to ${what} that is needed stays out.`;
}

/** How far readings by eye are off in published trials and in practice. */
export function publishedText(quantity: PadQuantity, value: number): string {
  const { low, high } = intervalFor(quantity, value, 'eye');
  return `Dipwise takes a strip read by eye at ${withUnit(formatMeasured(value, unitOf(quantity)), quantity)} for ${formatInterval(low, high, unitOf(quantity))}.`;
}

export function classText(errors: readonly number[]): string {
  if (errors.length === 0) return 'Nobody has matched this strip yet.';
  const near = errors.filter((error) => Math.abs(error) <= 0.5).length;
  return `${countText(errors.length, 'reading', 'readings')}, ${near} within half a block of the truth.`;
}

function withUnit(value: string, quantity: PadQuantity): string {
  const unit = unitOf(quantity);
  return unit === 'pH' ? `pH ${value}` : `${value} ${unit}`;
}
