/** Numbers of the log as the visitor's units have them. */
import { settings } from '../../browser/settings.ts';
import type { LoggedValue } from '../../core/log/schema.ts';
import type { LearntRate } from '../../core/log/chlorine-use.ts';
import { type QuantityId, unitOf } from '../../core/measurement/quantities.ts';
import { judgementText } from '../../words/reading.ts';
import { quantityTitle } from '../../words/quantities.ts';
import { convert, convertTemperature } from '../../core/water/units.ts';
import { formatInterval, formatMeasured, formatValue } from '../../words/numbers.ts';
import * as units from '../../words/units.ts';
import { METHOD_WORDS } from '../../words/methods.ts';
import type { Plausible } from '../../core/typed/number.ts';
import { PLAUSIBLE } from '../../core/typed/plausible.ts';
import { readTyped, valueOf } from '../typed.ts';

export function temperatureText(celsius: number): string {
  return units.temperatureText(celsius, settings.units());
}

export function fromCelsius(celsius: number): number {
  return settings.units() === 'us' ? convertTemperature(celsius, 'C', 'F') : celsius;
}

/** @param typed in the visitor's unit */
export function toCelsius(typed: number): number {
  return settings.units() === 'us' ? convertTemperature(typed, 'F', 'C') : typed;
}

/** A temperature, in the visitor's unit. */
export function plausibleTemperature(): Plausible {
  return settings.units() === 'us' ? { min: 23, max: 140 } : { min: -5, max: 60 };
}

/** A water's temperature as typed: null where nothing was, NaN where it can't be a pool's. */
export function typedCelsius(text: string): number | null {
  const { min, max } = plausibleTemperature();
  const typed = valueOf(readTyped(text, { min, max }));
  if (typed === null) return null;
  return typed >= min && typed <= max ? toCelsius(typed) : NaN;
}

/** @param typed in the visitor's unit */
export function toMillimetres(typed: number): number {
  return settings.units() === 'us' ? convert('length', typed, 'in', 'mm') : typed;
}

export function plausibleRain(): Plausible {
  const { min, max } = PLAUSIBLE.rain;
  return settings.units() === 'us'
    ? { min: convert('length', min, 'mm', 'in'), max: convert('length', max, 'mm', 'in') }
    : { min, max };
}

export function rainText(mm: number): string {
  return units.rainText(mm, settings.units());
}

export function volumeUnit(): string {
  return units.volumeUnit(settings.units());
}

export function toLitres(typed: number): number {
  return settings.units() === 'us' ? convert('volume', typed, 'gal', 'L') : typed;
}

export function fromLitres(litres: number): number {
  return Number((settings.units() === 'us' ? convert('volume', litres, 'L', 'gal') : litres).toPrecision(6));
}

/** In the visitor's unit, which isn't written: "7.4", "26". What was typed keeps its digits. */
export function shownValue(quantity: QuantityId, value: number, isTyped: boolean): string {
  if (quantity === 'temperature') return formatValue(Math.round(fromCelsius(value) * 10) / 10);
  return isTyped ? formatValue(value) : formatMeasured(value, unitOf(quantity));
}

export function shownSpan(quantity: QuantityId, low: number, high: number): string {
  if (quantity !== 'temperature') return formatInterval(low, high, unitOf(quantity));
  return formatInterval(fromCelsius(low), fromCelsius(high), '°C');
}

/** pH has no unit to show. */
export function shownUnit(quantity: QuantityId): string {
  const unit = unitOf(quantity);
  return unit === '°C' ? units.temperatureUnit(settings.units()) : unit === 'pH' ? '' : unit;
}

/** "Free chlorine, mg/L"; "pH". */
export function quantityWithUnit(quantity: QuantityId): string {
  return [quantityTitle(quantity), shownUnit(quantity)].filter(Boolean).join(', ');
}

/** "7.4", "over 10", "7.4 or 8.2". */
export function loggedText({ quantity, value, method, offScale, alternative }: LoggedValue): string {
  const shown = shownValue(quantity, value, method !== 'photo');
  if (offScale === 'above') return `over ${shown}`;
  if (offScale === 'below') return `under ${shown}`;
  return alternative ? `${shown} or ${shownValue(quantity, alternative.value, false)}` : shown;
}

/** "perhaps low", as the sheet said it on the day. */
export function wordText({ word, otherWord, isSure }: Pick<LoggedValue, 'word' | 'otherWord' | 'isSure'>): string {
  return word ? judgementText({ word, otherWord, isSure }) : '';
}

/** "7.2 to 7.6"; "by a drop kit, 7.2 to 7.7" where no photo gave it. */
export function intervalText(value: LoggedValue): string {
  const { quantity, method, offScale, low, high, alternative, openAbove, openBelow } = value;
  if (offScale === 'above') return 'beyond the scale';
  if (offScale === 'below') return 'before the scale';
  const how = method === 'photo' ? '' : `${METHOD_WORDS[method]}, `;
  if (!alternative && openAbove) return `${how}${shownValue(quantity, low, false)} or more`;
  if (!alternative && openBelow) return `${how}${shownValue(quantity, high, false)} or less`;
  const span = shownSpan(quantity, low, high);
  return `${how}${alternative ? `${span}, or ${shownSpan(quantity, alternative.low, alternative.high)}` : span}`;
}

/** "1.4 (1.0 to 1.9)" */
export function rateText({ value, low, high }: LearntRate, scale = 1): string {
  return `${formatMeasured(value * scale, 'mg/L')} (${formatInterval(low * scale, high * scale, 'mg/L')})`;
}
