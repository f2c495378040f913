/** pH and alkalinity moved together, so that the moves don't fight each other. */
import { backgroundOf, compose, constantsAt } from './composition.ts';
import { AIR_CO2 } from './constants.ts';
import { strongAcidToPh } from './demand.ts';
import { contentsOf, phWithAir } from './equilibrium.ts';
import { WaterError } from './errors.ts';
import { add } from './moves/add.ts';
import { aerateToPh } from './moves/aerate.ts';
import { ALKALINITY_PER_MMOL, type Water } from './water.ts';

export interface PhAndAlkalinity {
  readonly ph: number;
  readonly totalAlkalinity: number;
}

/** mmol/L of each, none negative. */
export interface Correction {
  readonly acid: number;
  readonly bicarbonate: number;
  readonly sodaAsh: number;
  readonly carbonDioxideToAir: number;
}

/**
 * What takes the water to a pH and an alkalinity at once: strong acid, bicarbonate, soda ash, and CO2 lost to the air
 * only where nothing else will do. In whatever order, the end is the same; the way there isn't.
 * @throws WaterError 'out-of-reach' when air would have to carry off more CO2 than it does
 */
export function correctionTo(water: Water, target: PhAndAlkalinity, carbonDioxideAtm = AIR_CO2.atm): Correction {
  const contents = contentsOf(water);
  const at = constantsAt(water.temperatureC);
  const alkalinity = target.totalAlkalinity / ALKALINITY_PER_MMOL / 1000;
  let correction: Correction = { acid: 0, bicarbonate: 0, sodaAsh: 0, carbonDioxideToAir: 0 };
  // The acid's chloride shifts the ionic strength a little; three rounds settle it beyond printing.
  for (let round = 0; round < 3; round++) {
    const after = { ...contents, alkalinity, salt: contents.salt + correction.acid / 1000 };
    const { inorganicCarbon } = compose(target.ph, backgroundOf(after), { alkalinity }, at);
    if (!(inorganicCarbon >= 0)) throw new WaterError('contradictory');
    correction = split(1000 * (alkalinity - contents.alkalinity), 1000 * (inorganicCarbon - contents.inorganicCarbon));
  }
  if (correction.carbonDioxideToAir > 0 && target.ph > phWithAir({ ...water, ...target }, carbonDioxideAtm)) {
    throw new WaterError('out-of-reach');
  }
  return correction;
}

/** Shares out a change of alkalinity and of carbon, mmol/L. */
function split(alkalinity: number, carbon: number): Correction {
  const none = { acid: 0, bicarbonate: 0, sodaAsh: 0, carbonDioxideToAir: 0 };
  if (carbon >= 0 && alkalinity <= carbon) return { ...none, bicarbonate: carbon, acid: carbon - alkalinity };
  if (carbon >= 0 && alkalinity <= 2 * carbon) {
    return { ...none, bicarbonate: 2 * carbon - alkalinity, sodaAsh: alkalinity - carbon };
  }
  if (alkalinity >= 0) return { ...none, sodaAsh: alkalinity / 2, carbonDioxideToAir: alkalinity / 2 - carbon };
  return { ...none, acid: -alkalinity, carbonDioxideToAir: -carbon };
}

export interface AlkalinityRound {
  /** mmol/L of strong acid. */
  readonly acid: number;
  readonly afterAcid: Water;
  /** After aerating back up. */
  readonly afterAir: Water;
}

const MOST_ROUNDS = 100;
/** A round that takes off less than this isn't one, mmol/L. */
const LEAST_ACID = 1e-4;

/**
 * Lowers the alkalinity in rounds: acid down to a lowest pH, then air (not soda) back up.
 * @param goal what to end at; `ph` is also where each round of aerating stops
 * @param lowestPh that no round goes below
 * @returns no rounds when the alkalinity is low enough already
 * @throws WaterError 'out-of-reach' when air doesn't lift the pH to `goal.ph`, or `lowestPh` leaves no room
 */
export function lowerAlkalinity(water: Water, goal: PhAndAlkalinity, lowestPh: number): AlkalinityRound[] {
  const rounds: AlkalinityRound[] = [];
  let now = water;
  while (now.totalAlkalinity > goal.totalAlkalinity * (1 + 1e-9)) {
    if (rounds.length === MOST_ROUNDS) throw new WaterError('out-of-reach');
    const room = now.ph > lowestPh ? strongAcidToPh(now, lowestPh) : 0;
    const wanted = (now.totalAlkalinity - goal.totalAlkalinity) / ALKALINITY_PER_MMOL;
    const acid = Math.min(room, wanted);
    if (acid < LEAST_ACID && wanted > LEAST_ACID && now.ph >= goal.ph) throw new WaterError('out-of-reach');
    const afterAcid = acid > 0 ? add(now, 'hydrochloric-acid', acid) : now;
    const afterAir = afterAcid.ph < goal.ph ? aerateToPh(afterAcid, goal.ph) : afterAcid;
    rounds.push({ acid, afterAcid, afterAir });
    now = afterAir;
  }
  return rounds;
}
