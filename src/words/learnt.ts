/** What is said about known water, and what a scale has learnt from it. */
import type { TypedMethod } from '../core/measurement/methods.ts';
import type { Learnt } from '../core/scale/schema.ts';
import { momentText } from './dates.ts';
import { formatValue, numberText } from './numbers.ts';
import { quantityTitle } from './quantities.ts';

export const LEARN = {
  learnt: 'The scale has learnt this, and reads the next photo with it.',
  'beyond-chart': 'This value lies beyond the chart, so there is no colour to compare with. Nothing was learnt.',
  'too-far':
    'The pad’s colour is too far from the chart’s at this value: nothing was learnt. Check the other test, and whether the strip is one of this scale’s.',
  gone: 'This scale is no longer kept on this device, so nothing was learnt.',
  failed: 'That could not be kept. There may be no room left on this device.',
  shelf: 'See what it knows, or undo it.',
  make: 'How to make known water',
} as const;

/** Of a print of the card that the scale doesn't know yet. */
export const LEARN_PRINT = {
  button: 'Let the scale know this print by this strip',
  light: 'beside another print, a known strip',
  learnt: 'The scale knows this print now, and reads the next photo with it.',
  'too-few-values': 'First correct two values or more by another test, each one that lies on its chart.',
  'never-taught': 'This scale was never taught with a photo of its chart, so no print is known to it.',
} as const;

/** Drops and meters know the water; what was seen on a strip doesn't. */
export function learnButtonText(method: TypedMethod): string {
  return method === 'drops' || method === 'meter'
    ? 'Let the scale learn this value'
    : 'This water was made to this value: let the scale learn it';
}

/** "pH 7.4 on 14 July 2026, 9:30: the pad's colour lay 3.1 from the chart's." */
export function learntText({ parameter, value, off, at }: Learnt): string {
  const apart = numberText(Math.hypot(...off), { decimals: 1 });
  return `${quantityTitle(parameter)} ${formatValue(value)} on ${momentText(at)}: the pad’s colour lay ${apart} from the chart’s (CIELAB).`;
}
