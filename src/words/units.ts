/** Quantities in the units that somebody has chosen; the space between number and unit doesn't break. */
import { convert, convertTemperature, type UnitSystem } from '../core/water/units.ts';
import { numberText } from './numbers.ts';

export function temperatureUnit(units: UnitSystem): '°C' | '°F' {
  return units === 'us' ? '°F' : '°C';
}

/** "26.5 °C", "80 °F" */
export function temperatureText(celsius: number, units: UnitSystem): string {
  const value = units === 'us' ? convertTemperature(celsius, 'C', 'F') : celsius;
  return withUnit(numberText(Math.round(value * 10) / 10), temperatureUnit(units));
}

export function volumeUnit(units: UnitSystem): 'L' | 'US gal' {
  return units === 'us' ? 'US gal' : 'L';
}

/** "28,500 L", "7,500 US gal" */
export function volumeText(litres: number, units: UnitSystem, figures = 4): string {
  const value = units === 'us' ? convert('volume', litres, 'L', 'gal') : litres;
  return withUnit(numberText(value, { figures }), volumeUnit(units));
}

export function rainUnit(units: UnitSystem): 'mm' | 'in' {
  return units === 'us' ? 'in' : 'mm';
}

/** "12 mm", "0.47 in" */
export function rainText(mm: number, units: UnitSystem): string {
  const value = units === 'us' ? convert('length', mm, 'mm', 'in') : mm;
  return withUnit(numberText(value, { figures: units === 'us' ? 2 : 4 }), rainUnit(units));
}

/** "12 g/h", "0.63 lb a day" of chlorine */
export function outputText(gramsPerHour: number, units: UnitSystem): string {
  const value = units === 'us' ? convert('output', gramsPerHour, 'g/h', 'lb/day') : gramsPerHour;
  return withUnit(numberText(value, { figures: 2 }), units === 'us' ? 'lb a day' : 'g/h');
}

/** "9,000 L/h", "40 gpm" */
export function flowText(litresPerHour: number, units: UnitSystem): string {
  const value = units === 'us' ? convert('flow', litresPerHour, 'L/h', 'gal/min') : litresPerHour;
  return withUnit(numberText(value, { figures: 3 }), units === 'us' ? 'gpm' : 'L/h');
}

/** pH has no unit to show. */
export function withUnit(number: string, unit: string): string {
  return unit === 'pH' ? number : `${number}\u00a0${unit}`;
}
