/** Numbers of the log as the visitor's units have them. */
import { settings } from '../../browser/settings.ts';
import { countingEstimate, type LoggedValue } from '../../core/log/schema.ts';
import type { LearntRate } from '../../core/log/chlorine-use.ts';
import { judgementText } from '../../words/reading.ts';
import { convert, convertTemperature } from '../../core/water/units.ts';
import { formatInterval, formatMeasured, formatValue } from '../../words/numbers.ts';

export function temperatureUnit(): '°C' | '°F' {
  return settings.units() === 'us' ? '°F' : '°C';
}

export function temperatureText(celsius: number): string {
  const value = settings.units() === 'us' ? convertTemperature(celsius, 'C', 'F') : celsius;
  return `${Math.round(value * 10) / 10}\u00a0${temperatureUnit()}`;
}

/** @param typed in the visitor's unit */
export function toCelsius(typed: number): number {
  return settings.units() === 'us' ? convertTemperature(typed, 'F', 'C') : typed;
}

/** A water's temperature as typed: null where nothing was, NaN where it can't be a pool's. */
export function typedCelsius(typed: string): number | null {
  const text = typed.trim().replace(',', '.');
  if (text === '') return null;
  const celsius = toCelsius(Number(text));
  return celsius >= -5 && celsius <= 60 ? celsius : NaN;
}

export function volumeUnit(): 'L' | 'US gal' {
  return settings.units() === 'us' ? 'US gal' : 'L';
}

export function toLitres(typed: number): number {
  return settings.units() === 'us' ? convert('volume', typed, 'gal', 'L') : typed;
}

export function fromLitres(litres: number): number {
  return Number((settings.units() === 'us' ? convert('volume', litres, 'L', 'gal') : litres).toPrecision(6));
}

/** "7.4", "over 10", "7.4 (by hand)"; a dash where nothing was found. */
export function loggedText(value: LoggedValue): string {
  const estimate = countingEstimate(value);
  if (!estimate) return '–';
  if (value.byHand !== null) return formatValue(value.byHand);
  const shown = formatMeasured(estimate.value, value.unit);
  if (value.offScale === 'above') return `over ${shown}`;
  if (value.offScale === 'below') return `under ${shown}`;
  return value.alternative ? `${shown} or ${formatMeasured(value.alternative.value, value.unit)}` : shown;
}

/** "perhaps low", as the sheet said it on the day; nothing for a value by hand. */
export function wordText(said: Pick<LoggedValue, 'word' | 'otherWord' | 'isSure'>, byHand: boolean): string {
  const { word, otherWord, isSure } = said;
  return word && !byHand ? judgementText({ word, otherWord, isSure }) : '';
}

export function intervalText(value: LoggedValue): string {
  if (value.byHand !== null) return 'by hand';
  if (!value.photo) return 'no part of the scale fits';
  if (value.offScale === 'above') return 'beyond the scale';
  if (value.offScale === 'below') return 'before the scale';
  const { low, high } = value.photo;
  if (!value.alternative && value.openAbove) return `${formatMeasured(low, value.unit)} or more`;
  if (!value.alternative && value.openBelow) return `${formatMeasured(high, value.unit)} or less`;
  const span = formatInterval(low, high, value.unit);
  if (!value.alternative) return span;
  return `${span}, or ${formatInterval(value.alternative.low, value.alternative.high, value.unit)}`;
}

/** "1.4 (1.0 to 1.9)" */
export function rateText({ value, low, high }: LearntRate, scale = 1): string {
  return `${formatMeasured(value * scale, 'mg/L')} (${formatInterval(low * scale, high * scale, 'mg/L')})`;
}
