/**
 * Amounts as a person measures them: computed exactly elsewhere, rounded only here.
 * The step grows with the amount, so that rounding never moves a dose of 15 g or mL and more by over a tenth.
 */
import { convert, type UnitSystem } from './units.ts';

export type MeasureUnit = 'mL' | 'L' | 'g' | 'kg' | 'fl oz' | 'gal' | 'oz' | 'lb';

export interface MeasurePart {
  readonly value: number;
  readonly unit: MeasureUnit;
}

/** What to measure out: one part (350 mL), or two that belong together (3 lb 4 oz). Empty: too little to measure. */
export type Measure = readonly MeasurePart[];

interface Step {
  /** The step holds for amounts below this, in the unit the amount is counted in. */
  readonly below: number;
  readonly step: number;
}

const MILLILITRES: readonly Step[] = [
  { below: 50, step: 1 },
  { below: 1000, step: 10 },
  { below: 10_000, step: 50 },
  { below: 50_000, step: 500 },
  { below: Infinity, step: 1000 },
];
const GRAMS: readonly Step[] = [
  { below: 25, step: 1 },
  { below: 1000, step: 5 },
  { below: 10_000, step: 50 },
  { below: 50_000, step: 500 },
  { below: Infinity, step: 1000 },
];
/** Fluid ounces, 128 to the gallon. */
const FLUID_OUNCES: readonly Step[] = [
  { below: 1.25, step: 0.1 },
  { below: 32, step: 0.25 },
  { below: 128, step: 1 },
  { below: 640, step: 4 },
  { below: Infinity, step: 32 },
];
/** Ounces, 16 to the pound. */
const OUNCES: readonly Step[] = [
  { below: 1.25, step: 0.1 },
  { below: 16, step: 0.25 },
  { below: 160, step: 1 },
  { below: 800, step: 8 },
  { below: Infinity, step: 16 },
];

/** @param millilitres of a liquid product, at least 0 */
export function measureLiquid(millilitres: number, system: UnitSystem): Measure {
  if (system === 'metric') return single(round(millilitres, MILLILITRES), 1000, 'mL', 'L');
  return pair(round(convert('volume', millilitres, 'mL', 'fl oz'), FLUID_OUNCES), 128, 'fl oz', 'gal');
}

/** @param grams of a dry product, at least 0 */
export function measureSolid(grams: number, system: UnitSystem): Measure {
  if (system === 'metric') return single(round(grams, GRAMS), 1000, 'g', 'kg');
  return pair(round(convert('mass', grams, 'g', 'oz'), OUNCES), 16, 'oz', 'lb');
}

/** Water to let out and fill in again, rounded to two figures: nobody measures it closer than by the level. */
export function measureWater(litres: number, system: UnitSystem): { value: number; unit: 'L' | 'gal' } {
  const unit = system === 'metric' ? 'L' : 'gal';
  const value = convert('volume', litres, 'L', unit);
  if (value <= 0) return { value: 0, unit };
  const step = 10 ** (Math.floor(Math.log10(value)) - 1);
  return { value: tidy(Math.round(value / step) * step), unit };
}

/** Hours of running something, to the quarter hour; from half a day on to the half hour. */
export function measureHours(hours: number): number {
  const step = hours < 12 ? 0.25 : 0.5;
  return Math.round(hours / step) * step;
}

function round(amount: number, steps: readonly Step[]): number {
  const { step } = steps.find(({ below }) => amount < below) ?? steps.at(-1)!;
  return tidy(Math.round(amount / step) * step);
}

function single(amount: number, per: number, small: MeasureUnit, large: MeasureUnit): Measure {
  if (amount <= 0) return [];
  return amount < per ? [{ value: amount, unit: small }] : [{ value: tidy(amount / per), unit: large }];
}

function pair(amount: number, per: number, small: MeasureUnit, large: MeasureUnit): Measure {
  const whole = Math.floor(amount / per);
  const rest = tidy(amount - whole * per);
  const parts: MeasurePart[] = [];
  if (whole > 0) parts.push({ value: whole, unit: large });
  if (rest > 0) parts.push({ value: rest, unit: small });
  return parts;
}

/** Rounds off what binary fractions add to a sum of decimal steps. */
function tidy(value: number): number {
  return Number(value.toPrecision(12));
}
