/** What the free chlorine consists of: the small part that disinfects now, and what stabilizer keeps. */
import { ZERO_CELSIUS, MOLAR_MASS } from './constants.ts';
import {
  cyanuratesAt,
  MODEL_1974,
  MODEL_2019,
  shareChlorine,
  type CyanurateModel,
  type CyanurateName,
} from './cyanurates.ts';
import { CHLORINE_PER_MMOL, type Water } from './water.ts';

export type ChlorineWater = Pick<Water, 'ph' | 'temperatureC' | 'freeChlorine' | 'cyanuricAcid'>;

/** mg/L as Cl2. */
export interface ChlorineShares {
  readonly hypochlorousAcid: number;
  readonly hypochlorite: number;
  /** Held by cyanuric acid; a test counts it as free chlorine. */
  readonly bound: number;
  /** The bound part by species; only those that hold chlorine. */
  readonly boundBy: Partial<Record<CyanurateName, number>>;
}

/**
 * The models as published: no activity coefficients, pH taken for -log [H+]. Away from 25 °C the set of 1974 goes by
 * the temperature slopes of 2018/2019.
 */
export function chlorineShares(water: ChlorineWater, model: CyanurateModel = MODEL_1974): ChlorineShares {
  const at = cyanuratesAt(model, water.temperatureC + ZERO_CELSIUS);
  const shared = shareChlorine(
    at,
    10 ** -water.ph,
    water.freeChlorine / CHLORINE_PER_MMOL / 1000,
    water.cyanuricAcid / MOLAR_MASS.cyanuricAcid / 1000,
  );
  const mgL = 1000 * CHLORINE_PER_MMOL;
  const boundBy: Partial<Record<CyanurateName, number>> = {};
  let bound = 0;
  at.species.forEach(({ name, chlorines }, i) => {
    if (chlorines === 0) return;
    boundBy[name] = chlorines * shared.species[i]! * mgL;
    bound += boundBy[name];
  });
  return {
    hypochlorousAcid: shared.hypochlorousAcid * mgL,
    hypochlorite: shared.hypochlorite * mgL,
    bound,
    boundBy,
  };
}

/** Hypochlorous acid, mg/L as Cl2, by both published sets of constants. */
export interface ActiveChlorine {
  /** O'Brien, Morris & Butler 1974. */
  readonly by1974: number;
  /** Wahman 2018, Wahman & Alexander 2019: measured again, about a third less where there is stabilizer. */
  readonly by2019: number;
  readonly low: number;
  readonly high: number;
  /** Of the free chlorine, 0-1, by the set of 1974; 0 without chlorine. */
  readonly share: number;
}

export function activeChlorine(water: ChlorineWater): ActiveChlorine {
  const by1974 = chlorineShares(water, MODEL_1974).hypochlorousAcid;
  const by2019 = chlorineShares(water, MODEL_2019).hypochlorousAcid;
  return {
    by1974,
    by2019,
    low: Math.min(by1974, by2019),
    high: Math.max(by1974, by2019),
    share: water.freeChlorine > 0 ? by1974 / water.freeChlorine : 0,
  };
}

/** mg/L of chlorine per mg/L of combined chlorine that trade handbooks give to break it. Common practice, no source. */
export const BREAKPOINT_FACTOR = 10;
/**
 * The same by stoichiometry for monochloramine, 2 NH2Cl + HOCl = N2 + 3 HCl + H2O; real water with other amines takes
 * more.
 */
export const BREAKPOINT_STOICHIOMETRIC = 0.5;
