/** Free chlorine shared out into what works, what hardly does, and what stabilizer holds; for instruments and figures. */
import { ZERO_CELSIUS } from '../../core/water/constants.ts';
import {
  cyanuratesAt,
  MODEL_1974,
  MODEL_2019,
  shareChlorine,
  type CyanurateModel,
} from '../../core/water/cyanurates.ts';
import { measuredContents, waterOf, CHLORINE_PER_MMOL } from '../../core/water/water.ts';

export interface ChlorineWater {
  readonly ph: number;
  /** mg/L as Cl2. */
  readonly chlorine: number;
  /** mg/L. */
  readonly stabilizer: number;
  readonly celsius?: number | undefined;
}

export interface ChlorineShares {
  /** Hypochlorous acid, hypochlorite and what stabilizer holds; mg/L as Cl2. */
  readonly active: number;
  readonly hypochlorite: number;
  readonly held: number;
  /** Active part of free chlorine, 0 to 1. */
  readonly share: number;
}

/** By the constants of 1974. */
export function chlorineShares(water: ChlorineWater): ChlorineShares {
  return sharesBy(MODEL_1974, water);
}

/** By the later constants, which find about a third less. */
export function laterChlorineShares(water: ChlorineWater): ChlorineShares {
  return sharesBy(MODEL_2019, water);
}

function sharesBy(model: CyanurateModel, { ph, chlorine, stabilizer, celsius = 25 }: ChlorineWater): ChlorineShares {
  const contents = measuredContents(
    waterOf({ ph, totalAlkalinity: 0, calciumHardness: 0, freeChlorine: chlorine, cyanuricAcid: stabilizer }),
  );
  const at = cyanuratesAt(model, celsius + ZERO_CELSIUS);
  const shared = shareChlorine(at, 10 ** -ph, contents.chlorine, contents.cyanurate);
  const milligrams = (molar: number) => molar * 1000 * CHLORINE_PER_MMOL;
  const active = milligrams(shared.hypochlorousAcid);
  const hypochlorite = milligrams(shared.hypochlorite);
  return { active, hypochlorite, held: chlorine - active - hypochlorite, share: active / chlorine };
}
