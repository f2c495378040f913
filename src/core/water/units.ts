/**
 * Units of the trade, US and metric.
 *
 * Factors are exact by definition: the international yard and pound of 1959 and the US gallon of 231 cubic inches,
 * as tabulated in NIST Special Publication 811 (2008), appendix B. Hardness and alkalinity are as CaCO3; 1 mg/L in
 * water is what the trade calls 1 ppm.
 */
export type UnitSystem = 'metric' | 'us';

const POUND_GRAMS = 453.59237;
const FOOT_METRES = 0.3048;
const CUBIC_INCH_LITRES = 0.0254 ** 3 * 1000;
const GALLON_LITRES = 3.785411784;
/** The international-table Btu, NIST SP 811 appendix B.8. */
const BTU_KILOWATT_HOURS = 1055.05585262 / 3.6e6;
/** g/mol, IUPAC conventional atomic weights. */
const CACO3 = 100.086;
const CAO = 56.077;

/** How many of the base unit (the first one of each quantity) one of the unit is. */
export const FACTORS = {
  volume: {
    L: 1,
    mL: 0.001,
    m3: 1000,
    gal: GALLON_LITRES,
    'fl oz': GALLON_LITRES / 128,
    ft3: 1728 * CUBIC_INCH_LITRES,
  },
  mass: { g: 1, kg: 1000, lb: POUND_GRAMS, oz: POUND_GRAMS / 16 },
  length: { m: 1, cm: 0.01, mm: 0.001, ft: FOOT_METRES, in: FOOT_METRES / 12 },
  area: { m2: 1, ft2: FOOT_METRES ** 2 },
  flow: { 'L/h': 1, 'm3/h': 1000, 'L/min': 60, 'gal/h': GALLON_LITRES, 'gal/min': 60 * GALLON_LITRES },
  /** Of a chlorinator, as Cl2. */
  output: { 'g/h': 1, 'lb/day': POUND_GRAMS / 24 },
  energy: { kWh: 1, MJ: 1 / 3.6, BTU: BTU_KILOWATT_HOURS },
  power: { kW: 1, 'BTU/h': BTU_KILOWATT_HOURS },
  /** 6,894.757 Pa to the psi, NIST SP 811, appendix B.8. */
  pressure: { bar: 1, psi: 0.06894757 },
  /** As CaCO3. °dH is 10 mg/L of CaO, °fH is 10 mg/L of CaCO3, gr/gal is one grain (lb/7000) to the US gallon. */
  hardness: {
    'mg/L': 1,
    dH: (10 * CACO3) / CAO,
    fH: 10,
    'gr/gal': (POUND_GRAMS * 1000) / 7000 / GALLON_LITRES,
    'mmol/L': CACO3,
    'meq/L': CACO3 / 2,
  },
} as const;

export type Quantity = keyof typeof FACTORS;
export type UnitOf<Q extends Quantity> = keyof (typeof FACTORS)[Q] & string;
export type TemperatureUnit = 'C' | 'F';

/** @returns `value`, given in `from`, in `to` */
export function convert<Q extends Quantity>(quantity: Q, value: number, from: UnitOf<Q>, to: UnitOf<Q>): number {
  if (from === to) return value;
  const factors: Record<string, number> = FACTORS[quantity];
  return (value * factors[from]!) / factors[to]!;
}

/** Degrees on the scale (not differences). */
export function convertTemperature(value: number, from: TemperatureUnit, to: TemperatureUnit): number {
  if (from === to) return value;
  return from === 'F' ? (value - 32) / 1.8 : value * 1.8 + 32;
}
