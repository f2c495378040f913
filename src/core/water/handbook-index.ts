/**
 * The saturation index as pool handbooks work it out: a factor each for temperature, calcium and alkalinity, and one
 * constant. Kept beside the equilibrium because owners will have met it.
 */
import { read, readElsewhere } from '../provenance.ts';
import { convertTemperature } from './units.ts';
import type { Water } from './water.ts';

type Table = readonly (readonly [number, number])[];

/** °F against the temperature factor. */
export const TEMPERATURE_FACTORS = {
  table: [
    [32, 0],
    [37, 0.1],
    [46, 0.2],
    [53, 0.3],
    [60, 0.4],
    [66, 0.5],
    [76, 0.6],
    [84, 0.7],
    [94, 0.8],
    [105, 0.9],
    [128, 1],
  ] as Table,
  ...read('Administrative Rules of Montana, Title 37 ch. 115, Table 7'),
};

/** pH against mg/L of alkalinity (as CaCO3) that 1 mg/L of cyanuric acid makes. */
export const CYANURATE_FACTORS = {
  table: [
    [7, 0.23],
    [7.2, 0.27],
    [7.4, 0.31],
    [7.6, 0.33],
    [7.8, 0.35],
    [8, 0.36],
  ] as Table,
  ...readElsewhere('table attributed to Wojtowicz 1995, J. Swimming Pool Spa Ind. 1(1):6-12'),
};

/** Below and from 1000 mg/L of dissolved solids on; the Montana table. */
const CONSTANT_FRESH = 12.1;
const CONSTANT_SALTY = 12.2;
const SALTY_FROM = 1000;

function interpolate(table: Table, x: number): number {
  const first = table[0]!;
  const last = table.at(-1)!;
  if (x <= first[0]) return first[1];
  if (x >= last[0]) return last[1];
  const above = table.findIndex(([at]) => at > x);
  const [x1, y1] = table[above]!;
  const [x0, y0] = table[above - 1]!;
  return y0 + ((x - x0) / (x1 - x0)) * (y1 - y0);
}

/** Between the table's rows in proportion; 0 at freezing. */
export function temperatureFactor(temperatureC: number): number {
  return interpolate(TEMPERATURE_FACTORS.table, convertTemperature(temperatureC, 'C', 'F'));
}

/** Agrees with the printed table within its rounding of 0.05. */
export function calciumFactor(calciumHardness: number): number {
  return Math.log10(calciumHardness) - 0.4;
}

/** As `calciumFactor`. */
export function alkalinityFactor(carbonateAlkalinity: number): number {
  return Math.log10(carbonateAlkalinity);
}

/** Outside pH 7-8 the table's ends. */
export function cyanurateFactor(ph: number): number {
  return interpolate(CYANURATE_FACTORS.table, ph);
}

/** Total alkalinity less what the handbook takes for cyanurate; borate stays in, as in the handbooks. */
export function handbookCarbonateAlkalinity(water: Pick<Water, 'ph' | 'totalAlkalinity' | 'cyanuricAcid'>): number {
  return water.totalAlkalinity - water.cyanuricAcid * cyanurateFactor(water.ph);
}

/** mg/L: the salts the readings stand for (CaCl2, NaHCO3, H3BO3, Na2SO4), since nobody measures the sum. */
export function dissolvedSolids(water: Water): number {
  const { salt, calciumHardness, totalAlkalinity, cyanuricAcid, boron, sulfate } = water;
  return salt + 1.109 * calciumHardness + 1.679 * totalAlkalinity + cyanuricAcid + 5.72 * boron + 1.479 * sulfate;
}

export function handbookConstant(dissolvedSolidsMgL: number): number {
  return dissolvedSolidsMgL < SALTY_FROM ? CONSTANT_FRESH : CONSTANT_SALTY;
}

/**
 * pH + temperature factor + calcium factor + alkalinity factor - constant.
 * @returns null where the handbook has no factor: no calcium, or less alkalinity than it takes off for cyanurate
 */
export function handbookIndex(water: Water): number | null {
  const carbonate = handbookCarbonateAlkalinity(water);
  if (!(carbonate > 0 && water.calciumHardness > 0)) return null;
  return (
    water.ph +
    temperatureFactor(water.temperatureC) +
    calciumFactor(water.calciumHardness) +
    alkalinityFactor(carbonate) -
    handbookConstant(dissolvedSolids(water))
  );
}
