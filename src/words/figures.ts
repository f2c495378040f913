/** How a computed figure is written in a sentence; the spaces inside it don't break. */
import { measureLiquid, measureSolid, type Measure } from '../core/water/measure.ts';
import { convert } from '../core/water/units.ts';
import { numberText } from './numbers.ts';

export function percent(share: number): string {
  return `${twoFigures(100 * share)}\u00a0%`;
}

/** mg/L to two figures. */
export function milligrams(value: number): string {
  return `${twoFigures(value)}\u00a0mg/L`;
}

function twoFigures(value: number): string {
  if (value >= 10) return whole(value);
  return numberText(value, { decimals: value % 1 === 0 ? 0 : Math.max(0, 1 - Math.floor(Math.log10(value))) });
}

export function whole(value: number): string {
  return numberText(Math.round(value));
}

/** With its sign, to one decimal; the minus as a minus. */
export function signed(value: number): string {
  const shown = numberText(value, { decimals: 1 });
  return value < 0 || shown === '0.0' ? shown : `+${shown}`;
}

export function litres(value: number): string {
  return litresOf(value, 100);
}

/** To so many litres, and in US gallons. */
export function litresOf(value: number, step: number): string {
  const gallons = numberText(convert('volume', value, 'L', 'gal'), { figures: 2 });
  return `${numberText(Math.round(value / step) * step)}\u00a0litres (${gallons}\u00a0US gal)`;
}

/** Amounts as a person measures them, metric first. */
export function liquid(millilitres: number): string {
  return both(measureLiquid(millilitres, 'metric'), measureLiquid(millilitres, 'us'));
}

export function solid(grams: number): string {
  return both(measureSolid(grams, 'metric'), measureSolid(grams, 'us'));
}

function both(metric: Measure, us: Measure): string {
  const said = (measure: Measure) =>
    measure.map(({ value, unit }) => `${numberText(value)}\u00a0${unit}`).join('\u00a0');
  return `${said(metric)} (${said(us)})`;
}
