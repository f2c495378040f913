/** Why the handbook index and the equilibrium differ, term by term. */
import { daviesLogGamma } from './activity.ts';
import { constantsAt, type ConstantsAt } from './composition.ts';
import { speciate } from './equilibrium.ts';
import {
  alkalinityFactor,
  calciumFactor,
  dissolvedSolids,
  handbookCarbonateAlkalinity,
  handbookConstant,
  handbookIndex,
  temperatureFactor,
} from './handbook-index.ts';
import { saturationIndex } from './saturation.ts';
import { ALKALINITY_PER_MMOL, HARDNESS_PER_MMOL, type Water } from './water.ts';

export type DifferenceCode =
  /** The factor table against the temperature course of the equilibrium constants, seen from 25 °C. */
  | 'temperature'
  /** One or two fixed constants against activities that follow the ionic strength. */
  | 'dissolved-solids'
  /** The share of stabilizer in the alkalinity. */
  | 'cyanuric-acid'
  /** Borate, hypochlorite and hydroxide in the alkalinity, which the handbook leaves in. */
  | 'other-acids'
  /** Calcium and bicarbonate that are paired and so don't count. */
  | 'ion-pairs'
  /** At high pH part of the alkalinity is carbonate, which counts twice as alkalinity. */
  | 'carbonate-ion'
  /** What is left at 25 °C in fresh water: the handbook's constant itself. */
  | 'constant';

export interface IndexDifference {
  readonly handbook: number;
  readonly equilibrium: number;
  /** Handbook minus equilibrium, by cause; they add up to the whole. */
  readonly terms: Readonly<Record<DifferenceCode, number>>;
}

/** Where the handbook's constant is taken to hold: 25 °C and a fresh pool water, mol/L. */
const REFERENCE_C = 25;
const REFERENCE_STRENGTH = 0.01;

/**
 * @returns null where either index has no value
 * @throws WaterError 'contradictory'
 */
export function indexDifference(water: Water): IndexDifference | null {
  const handbook = handbookIndex(water);
  const equilibrium = saturationIndex(water);
  if (handbook === null || !Number.isFinite(equilibrium)) return null;

  const at = constantsAt(water.temperatureC);
  const found = speciate(water, at);
  const calcium = water.calciumHardness / HARDNESS_PER_MMOL / 1000;
  const perEquivalent = 1000 * ALKALINITY_PER_MMOL;
  const withoutCyanurate = water.totalAlkalinity - found.cyanurateAlkalinity * perEquivalent;
  const carbonate = found.carbonateAlkalinity * perEquivalent;
  const unpaired = found.bicarbonate + 2 * found.carbonate;

  const reference = constantsAt(REFERENCE_C);
  const handbookTemperature = temperatureFactor(water.temperatureC) - temperatureFactor(REFERENCE_C);
  const activity = 5 * (found.logGamma1 - daviesLogGamma(at.debyeHuckel, REFERENCE_STRENGTH));
  const terms = {
    temperature: handbookTemperature - (freshTerm(at) - freshTerm(reference)),
    'dissolved-solids': handbookConstant(0) - handbookConstant(dissolvedSolids(water)) - activity,
    'cyanuric-acid': Math.log10(handbookCarbonateAlkalinity(water) / withoutCyanurate),
    'other-acids': Math.log10(withoutCyanurate / carbonate),
    'ion-pairs': -Math.log10(found.calciumIon / calcium) - Math.log10(unpaired / found.carbonateAlkalinity),
    'carbonate-ion': -Math.log10(found.bicarbonate / unpaired),
    constant:
      temperatureFactor(REFERENCE_C) +
      calciumFactor(1000 * HARDNESS_PER_MMOL) +
      alkalinityFactor(perEquivalent) -
      handbookConstant(0) -
      freshTerm(reference),
  };
  return { handbook, equilibrium, terms };
}

/** What pH, calcium and bicarbonate in mol/L lack to an index in fresh water. */
function freshTerm(at: ConstantsAt): number {
  return Math.log10(at.k2) - at.logCalcite + 5 * daviesLogGamma(at.debyeHuckel, REFERENCE_STRENGTH);
}
