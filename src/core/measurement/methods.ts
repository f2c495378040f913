/** The ways of measuring, and how far a value found in each may be off. */
import { COMMON_PRACTICE, fromMemory, read, readElsewhere, type Provenance } from '../provenance.ts';
import { QUANTITIES, type QuantityId } from './quantities.ts';

export const METHODS = [
  /** A photo of a strip, placed on a scale. */
  'photo',
  /** Typed, and how it was measured wasn't said. */
  'unsaid',
  /** Drops counted, or a tube compared. */
  'drops',
  /** A photometer, an electrode, a thermometer. */
  'meter',
  /** A strip's colours compared with its bottle's by eye. */
  'eye',
  /** A pad of another strip. */
  'other-strip',
] as const;
export type Method = (typeof METHODS)[number];
/** A photo brings its own interval. In the order in which they are offered, the first where nothing was chosen. */
export type TypedMethod = Exclude<Method, 'photo'>;
export const TYPED_METHODS = METHODS.filter((method) => method !== 'photo') as [TypedMethod, ...TypedMethod[]];

export interface TestError extends Provenance {
  /** Half of the 90 % interval, in the quantity's unit: at least `least`, else this share of the value. */
  readonly least: number;
  readonly share: number;
}

type Errors = Readonly<Record<QuantityId, TestError>>;

/**
 * Mean errors of chlorine tests in laboratory and volunteers' hands. Titrations up to 12.4 % and strips from 5.2 to 48 %
 * off: the middle of each (a mean error of e makes a 90 % interval of 2.06 e, if errors are normal).
 */
const CHLORINE_KITS = read(
  'Wells et al., PLOS ONE 11 (2016) e0152442, abstract: mean errors of fourteen chlorine tests',
);
/** The best colorimeters 5.1 % off, the strips up to 40.5 %. */
const CHLORINE_METERS = read('Murray and Lantagne, J. Water and Health 13 (2015) 79, abstract: seven chlorine tests');
/** Standard deviations of 0.20 at pH 7.1 and 0.13 at 8.0 among laboratories; the lesser, times 1.645. */
const PH_METERS = readElsewhere('AOAC 973.41: glass electrodes of 44 analysts in 20 laboratories');
/** A standard deviation of 5.3 at 116 mg/L, times 1.645; one drop of the usual kits is 10. */
const ALKALINITY_TITRATION = fromMemory('EPA method 310.1, 1978: 40 analysts in 17 laboratories');
/** A standard deviation of 9.7 at 440 mg/L, times 1.645; one drop of the usual kits is 10. */
const HARDNESS_TITRATION = fromMemory('EPA method 130.2, 1978: 43 analysts in 19 laboratories');

function within(least: number, share: number, from: Provenance = COMMON_PRACTICE): TestError {
  return { least, share, ...from };
}

const DROPS: Errors = {
  'free-chlorine': within(0.3, 0.13, CHLORINE_KITS),
  'total-chlorine': within(0.3, 0.13, CHLORINE_KITS),
  // Half of the step between the colours to compare with, which lie 0.3 or 0.4 apart.
  ph: within(0.2, 0),
  'total-alkalinity': within(10, 0.075, ALKALINITY_TITRATION),
  'total-hardness': within(10, 0.04, HARDNESS_TITRATION),
  'calcium-hardness': within(10, 0.04, HARDNESS_TITRATION),
  'cyanuric-acid': within(10, 0.15),
  salt: within(200, 0.06),
  boron: within(5, 0.15),
  temperature: within(1, 0),
};

const METER: Errors = {
  'free-chlorine': within(0.1, 0.105, CHLORINE_METERS),
  'total-chlorine': within(0.1, 0.105, CHLORINE_METERS),
  ph: within(0.2, 0, PH_METERS),
  'total-alkalinity': within(10, 0.08),
  'total-hardness': within(15, 0.08),
  'calcium-hardness': within(15, 0.08),
  'cyanuric-acid': within(8, 0.12),
  salt: within(100, 0.05),
  boron: within(5, 0.1),
  temperature: within(1, 0),
};

/** About one block either way, but for chlorine. */
const BY_EYE: Errors = {
  'free-chlorine': within(0.5, 0.55, CHLORINE_KITS),
  'total-chlorine': within(0.5, 0.55, CHLORINE_KITS),
  ph: within(0.4, 0),
  'total-alkalinity': within(20, 0.3),
  'total-hardness': within(50, 0.3),
  'calcium-hardness': within(50, 0.3),
  'cyanuric-acid': within(20, 0.4),
  salt: within(400, 0.15),
  boron: within(15, 0.4),
  temperature: within(1, 0),
};

/** It may have been drops or a strip: between the two. */
const UNSAID: Errors = {
  'free-chlorine': within(0.4, 0.3),
  'total-chlorine': within(0.4, 0.3),
  ph: within(0.3, 0),
  'total-alkalinity': within(15, 0.15),
  'total-hardness': within(25, 0.15),
  'calcium-hardness': within(25, 0.15),
  'cyanuric-acid': within(15, 0.25),
  salt: within(250, 0.1),
  boron: within(8, 0.25),
  temperature: within(1, 0),
};

export const TEST_ERRORS: Readonly<Record<TypedMethod, Errors>> = {
  drops: DROPS,
  meter: METER,
  eye: BY_EYE,
  'other-strip': BY_EYE,
  unsaid: UNSAID,
};

/** The 90 % interval that a value found in this way deserves, within what a pool's water can be. */
export function intervalFor(
  quantity: QuantityId,
  value: number,
  method: TypedMethod,
): { readonly low: number; readonly high: number } {
  // Water either has stabilizer or has none, and people know which.
  if (quantity === 'cyanuric-acid' && value === 0) return { low: 0, high: 0 };
  const { least, share } = TEST_ERRORS[method][quantity];
  const error = Math.max(least, share * value);
  const { min, max } = QUANTITIES[quantity];
  return { low: Math.min(value, Math.max(min, value - error)), high: Math.max(value, Math.min(max, value + error)) };
}
