/** Numbers as a person reads them: written by `Intl`, with no more figures than the thing is worth. */
import type { Unit } from '../core/measurement/quantities.ts';
import { LANGUAGE } from './grammar.ts';

export interface Figures {
  /** Exactly so many decimals. */
  readonly decimals?: number;
  /** At most so many figures, without a tail of zeros; 6 where nothing is said. */
  readonly figures?: number;
}

const formats = new Map<string, Intl.NumberFormat>();

/** "7.4", "3,000", "−0.3": every number in a sentence is written here. */
export function numberText(value: number, { decimals, figures = 6 }: Figures = {}): string {
  // Only a typing slip is so large or so small: written out, zeros would hide what was typed.
  const isFar = Math.abs(value) >= 1e15 || (value !== 0 && Math.abs(value) < 1e-9 && decimals === undefined);
  const options: Intl.NumberFormatOptions = isFar
    ? { notation: 'scientific', maximumSignificantDigits: figures }
    : decimals === undefined
      ? { maximumSignificantDigits: figures }
      : { minimumFractionDigits: decimals, maximumFractionDigits: decimals };
  // Making a format takes a hundred times as long as using it.
  const key = `${isFar} ${decimals ?? ''} ${figures}`;
  const format = formats.get(key) ?? new Intl.NumberFormat(LANGUAGE, options);
  formats.set(key, format);
  // A nought has no sign; others have a true minus.
  return format
    .format(value)
    .replace(/^-(?=[0.]+$)/, '')
    .replaceAll('-', '−')
    .replace('E', ' × 10^');
}

/** A value as it stands, without a tail of zeros: block values and typed values. */
export function formatValue(value: number): string {
  return numberText(value);
}

/** A measured value, to the step that a strip can support. */
export function formatMeasured(value: number, unit: Unit): string {
  return stepped(value, unit, Math.round);
}

/** Rounded outwards, so that what is shown never claims more than was found. */
export function formatInterval(low: number, high: number, unit: Unit): string {
  return `${stepped(low, unit, Math.floor)} to ${stepped(high, unit, Math.ceil)}`;
}

/** The step to which a value of this size is shown. */
function displayStep(value: number, unit: Unit): number {
  const size = Math.abs(value);
  if (unit !== 'mg/L' || size < 10) return 0.1;
  if (size < 100) return 1;
  return size < 1000 ? 5 : 50;
}

function stepped(value: number, unit: Unit, round: (x: number) => number): string {
  const step = displayStep(value, unit);
  const nearStep = Math.round(value / step);
  const steps = Math.abs(value / step - nearStep) < 1e-6 ? nearStep : round(value / step);
  if (steps === 0) return numberText(0);
  return numberText(steps * step, { decimals: step < 1 ? 1 : 0 });
}
