/**
 * What can be typed for a quantity: wide, and only good for telling 1.5 from 1500. Our own choice, but for the ranges
 * of what is measured. In metric units; the ends of a field in other units are converted with it.
 */
import { QUANTITIES, type QuantityId } from '../measurement/quantities.ts';
import type { Plausible } from './number.ts';

/** Nobody's test shows so little of them: a number below is a larger one with another mark. */
const MIN_TYPED: Partial<Record<QuantityId, number>> = {
  salt: 50,
  'total-hardness': 5,
  'calcium-hardness': 5,
};

export function plausibleFor(quantity: QuantityId): Plausible {
  const { min, max } = QUANTITIES[quantity];
  return { min: MIN_TYPED[quantity] ?? min, max };
}

export const PLAUSIBLE = {
  /** L */
  volume: { min: 100, max: 10_000_000 },
  /** L/h */
  flow: { min: 100, max: 1_000_000 },
  /** m² */
  area: { min: 0.5, max: 5000 },
  /** m */
  length: { min: 0.1, max: 200 },
  percent: { min: 0, max: 100 },
  /** Of a litre or kilogram, in any money. */
  price: { min: 0.01, max: 10_000 },
  /** bar */
  pressure: { min: 0, max: 10 },
  /** Of a chlorinator: g a day, and g an hour. */
  gramsPerDay: { min: 1, max: 100_000 },
  output: { min: 0.2, max: 500 },
  /** Of a strip and its pads. */
  millimetres: { min: 0, max: 200 },
  seconds: { min: 0, max: 3600 },
  /** In a week or a day, mm. */
  rain: { min: 0, max: 500 },
} as const satisfies Readonly<Record<string, Plausible>>;

/** Of a product that is added, by the unit it is given in. */
export const PLAUSIBLE_AMOUNT = {
  mL: { min: 5, max: 100_000 },
  L: { min: 0.01, max: 500 },
  g: { min: 5, max: 100_000 },
  kg: { min: 0.01, max: 500 },
  'fl oz': { min: 0.2, max: 5000 },
  gal: { min: 0.01, max: 200 },
  oz: { min: 0.2, max: 5000 },
  lb: { min: 0.01, max: 1000 },
} as const satisfies Readonly<Record<string, Plausible>>;
