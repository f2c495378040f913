/** How a computed figure is written in a sentence; the spaces inside it don't break. */
import { measureLiquid, measureSolid, type Measure } from '../../../core/water/measure.ts';

export function percent(share: number): string {
  const of100 = 100 * share;
  return `${of100 < 10 && of100 % 1 !== 0 ? of100.toPrecision(2) : Math.round(of100)}\u00a0%`;
}

/** mg/L to two figures. */
export function milligrams(value: number): string {
  return `${value < 10 ? value.toPrecision(2) : Math.round(value)}\u00a0mg/L`;
}

export function whole(value: number): string {
  return String(Math.round(value));
}

/** With its sign, to one decimal; the minus as a minus. */
export function signed(value: number): string {
  const shown = value.toFixed(1);
  if (Number(shown) === 0) return '0.0';
  return value < 0 ? shown.replace('-', '−') : `+${shown}`;
}

export function litres(value: number): string {
  return `${thousands(Math.round(value / 100) * 100)}\u00a0litres`;
}

/** Amounts as a person measures them, metric first. */
export function liquid(millilitres: number): string {
  return both(measureLiquid(millilitres, 'metric'), measureLiquid(millilitres, 'us'));
}

export function solid(grams: number): string {
  return both(measureSolid(grams, 'metric'), measureSolid(grams, 'us'));
}

function both(metric: Measure, us: Measure): string {
  const said = (measure: Measure) => measure.map(({ value, unit }) => `${value}\u00a0${unit}`).join('\u00a0');
  return `${said(metric)} (${said(us)})`;
}

/** A thin space between thousands. */
function thousands(value: number): string {
  return value.toLocaleString('en-GB').replaceAll(',', '\u202f');
}
