/** Whether readings can be those of a pool. Codes only: each surface words them. */
import { backgroundOf, compose, constantsAt } from './composition.ts';
import { MODEL_RANGE } from './constants.ts';
import { measuredContents, waterOf, type Water } from './water.ts';

export type Reading = keyof Water;

export type WaterIssue =
  | { readonly code: 'missing' | 'not-a-number' | 'negative'; readonly reading: Reading }
  /** Below or above what the chemistry here can say something about. */
  | { readonly code: 'too-low' | 'too-high'; readonly reading: Reading; readonly limit: number }
  /** No water has that pH. */
  | { readonly code: 'impossible'; readonly reading: 'ph' }
  /** Too hot for a pool in °C, usual in °F. */
  | { readonly code: 'looks-like-fahrenheit'; readonly reading: 'temperatureC' }
  /** Less alkalinity than the water's pH and its other acids alone make: one of the readings is wrong. */
  | { readonly code: 'too-little-alkalinity'; readonly readings: readonly Reading[] }
  /** So much alkalinity at so low a pH means more CO2 than water holds under open air: one of the two is wrong. */
  | { readonly code: 'too-much-carbon-dioxide'; readonly readings: readonly Reading[] }
  /** Too many ions for the activity model (Davies: 0.5 mol/L). */
  | { readonly code: 'too-concentrated'; readonly readings: readonly Reading[] };

/** Lowest and highest accepted. What a home pool or its fill water may show at the very worst, with room to spare. */
export const LIMITS: Readonly<Record<Reading, readonly [number, number]>> = {
  ph: [4, 11],
  temperatureC: MODEL_RANGE.temperatureC,
  totalAlkalinity: [0, 1000],
  calciumHardness: [0, 3000],
  salt: [0, 25_000],
  cyanuricAcid: [0, 1000],
  boron: [0, 200],
  freeChlorine: [0, 200],
  combinedChlorine: [0, 100],
  sulfate: [0, 5000],
};

const REQUIRED: readonly Reading[] = ['ph', 'totalAlkalinity', 'calciumHardness'];
const READINGS = Object.keys(LIMITS) as Reading[];
/** Water between these is no pool in °C (°F: 46 would be winter, 115 scalds). */
const FAHRENHEIT = [46, 115] as const;

/**
 * Everything wrong with the readings; empty when the water can be worked with.
 * @param readings those left out take the defaults of `waterOf`
 */
export function checkWater(readings: Partial<Record<Reading, unknown>>): WaterIssue[] {
  const issues = READINGS.flatMap((reading) => checkReading(reading, readings[reading]));
  if (issues.length > 0) return issues;
  const given = Object.entries(readings).filter(([, value]) => value !== undefined);
  return checkTogether(waterOf(Object.fromEntries(given) as unknown as Water));
}

function checkReading(reading: Reading, value: unknown): WaterIssue[] {
  if (value === undefined) return REQUIRED.includes(reading) ? [{ code: 'missing', reading }] : [];
  if (typeof value !== 'number' || !Number.isFinite(value)) return [{ code: 'not-a-number', reading }];
  if (reading === 'ph' && (value < 0 || value > 14)) return [{ code: 'impossible', reading }];
  const [low, high] = LIMITS[reading];
  if (value < 0 && reading !== 'temperatureC') return [{ code: 'negative', reading }];
  if (reading === 'temperatureC' && value >= FAHRENHEIT[0] && value <= FAHRENHEIT[1]) {
    return [{ code: 'looks-like-fahrenheit', reading }];
  }
  if (value < low) return [{ code: 'too-low', reading, limit: low }];
  if (value > high) return [{ code: 'too-high', reading, limit: high }];
  return [];
}

function checkTogether(water: Water): WaterIssue[] {
  const measured = measuredContents(water);
  const at = constantsAt(water.temperatureC);
  const found = compose(water.ph, backgroundOf(measured), measured, at);
  if (!(found.inorganicCarbon >= 0)) {
    const others: Reading[] = ['cyanuricAcid', 'boron', 'freeChlorine'];
    return [
      {
        code: 'too-little-alkalinity',
        readings: ['ph', 'totalAlkalinity', ...others.filter((reading) => water[reading] > 0)],
      },
    ];
  }
  if (found.carbonDioxide > at.henry) return [{ code: 'too-much-carbon-dioxide', readings: ['ph', 'totalAlkalinity'] }];
  if (found.ionicStrength > MODEL_RANGE.ionicStrength) {
    return [{ code: 'too-concentrated', readings: ['salt', 'calciumHardness'] }];
  }
  return [];
}
