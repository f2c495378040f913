/** What can be measured of a pool's water: one vocabulary, from a strip's pad to the plan and the logbook. */

interface Quantity {
  /** Alkalinity and hardness count as CaCO3, chlorine as Cl2, salt as NaCl, boron as B. */
  readonly unit: 'mg/L' | 'pH' | '°C';
  /** No pool's water lies outside these: a number beyond is a slip or a broken test. */
  readonly min: number;
  readonly max: number;
  /** The smallest difference worth showing. */
  readonly step: number;
}

/** The ids are used in files, addresses and commands: they don't change. */
export const QUANTITIES = {
  'free-chlorine': { unit: 'mg/L', min: 0, max: 100, step: 0.1 },
  'total-chlorine': { unit: 'mg/L', min: 0, max: 100, step: 0.1 },
  ph: { unit: 'pH', min: 5, max: 10, step: 0.1 },
  'total-alkalinity': { unit: 'mg/L', min: 0, max: 800, step: 1 },
  'total-hardness': { unit: 'mg/L', min: 0, max: 3000, step: 1 },
  'calcium-hardness': { unit: 'mg/L', min: 0, max: 3000, step: 1 },
  'cyanuric-acid': { unit: 'mg/L', min: 0, max: 500, step: 1 },
  salt: { unit: 'mg/L', min: 0, max: 25_000, step: 10 },
  boron: { unit: 'mg/L', min: 0, max: 150, step: 1 },
  temperature: { unit: '°C', min: 0, max: 45, step: 1 },
} as const satisfies Readonly<Record<string, Quantity>>;

export type QuantityId = keyof typeof QUANTITIES;
export type Unit = Quantity['unit'];

/** In the order in which they are listed everywhere. */
export const QUANTITY_IDS = Object.keys(QUANTITIES) as [QuantityId, ...QuantityId[]];

/** What a pad of a strip can measure. */
export const PAD_QUANTITIES = [
  'free-chlorine',
  'total-chlorine',
  'ph',
  'total-alkalinity',
  'total-hardness',
  'cyanuric-acid',
  'salt',
] as const satisfies readonly QuantityId[];
export type PadQuantity = (typeof PAD_QUANTITIES)[number];

export function unitOf(quantity: QuantityId): Unit {
  return QUANTITIES[quantity].unit;
}
