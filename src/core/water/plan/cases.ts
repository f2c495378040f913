/**
 * The waters that the readings allow, as five cases carried through the whole plan: the likeliest, and four at the ends
 * of the spans. The two easy ones have the least alkalinity, and every lesser reading at the end that makes the pH
 * move most; the two hard ones the opposite. Each pair has one case at either end of the pH. Together they bound what
 * any addition can do, as long as the pH answers to each reading in one direction over its span.
 */
import { add, addLiquidChlorine } from '../moves/add.ts';
import { addThiosulfate } from '../moves/chlorine.ts';
import { backgroundOf, compose, constantsAt } from '../composition.ts';
import { speciate } from '../equilibrium.ts';
import { WaterError } from '../errors.ts';
import type { Move } from '../products.ts';
import { measuredContents, waterOf, type Water } from '../water.ts';
import type { KnownWater } from './known.ts';
import type { Span } from './types.ts';

export interface WaterCase {
  readonly water: Water;
  readonly volumeLitres: number;
}

export interface Cases {
  readonly likely: WaterCase;
  /** Least buffered, at the low and the high end of the pH. */
  readonly easyLow: WaterCase;
  readonly easyHigh: WaterCase;
  /** Most buffered. */
  readonly hardLow: WaterCase;
  readonly hardHigh: WaterCase;
}

export const CASE_NAMES = ['likely', 'easyLow', 'easyHigh', 'hardLow', 'hardHigh'] as const;

export function mapCases(cases: Cases, change: (one: WaterCase) => Water): Cases {
  const next = (one: WaterCase): WaterCase => ({ ...one, water: change(one) });
  return {
    likely: next(cases.likely),
    easyLow: next(cases.easyLow),
    easyHigh: next(cases.easyHigh),
    hardLow: next(cases.hardLow),
    hardHigh: next(cases.hardHigh),
  };
}

/** Adds mmol of a product's reagent to the whole pool; how much that is per litre depends on the case's volume. */
export function addTo(cases: Cases, move: Move, mmol: number): Cases {
  return mapCases(cases, ({ water, volumeLitres }) => addToWater(water, move, mmol / volumeLitres));
}

export function addToWater(water: Water, move: Move, mmolPerLitre: number): Water {
  switch (move) {
    case 'liquid-chlorine':
      return addLiquidChlorine(water, mmolPerLitre);
    case 'thiosulfate':
      return addThiosulfate(water, mmolPerLitre);
    default:
      return add(water, move, mmolPerLitre);
  }
}

type LesserReading = 'calciumHardness' | 'temperatureC' | 'salt' | 'cyanuricAcid' | 'boron' | 'freeChlorine';

/**
 * @param volume of the pool, L
 * @throws WaterError 'contradictory' when not even the likeliest water is possible
 */
export function casesOf(known: KnownWater, volume: Span): Cases {
  const likely = waterOf({
    ph: known.ph.value,
    totalAlkalinity: known['total-alkalinity'].value,
    calciumHardness: known['calcium-hardness'].value,
    temperatureC: known.temperature.value,
    salt: known.salt.value,
    cyanuricAcid: known['cyanuric-acid'].value,
    boron: known.boron.value,
    freeChlorine: known['free-chlorine'].value,
    combinedChlorine: known['combined-chlorine']?.value ?? 0,
  });
  speciate(likely);
  const lesser: Record<LesserReading, Span> = {
    calciumHardness: known['calcium-hardness'],
    temperatureC: known.temperature,
    salt: known.salt,
    cyanuricAcid: known['cyanuric-acid'],
    boron: known.boron,
    freeChlorine: known['free-chlorine'],
  };
  const ease = easiest(likely, lesser);
  const at = (ph: number, totalAlkalinity: number, end: 'easy' | 'hard', combined: number): Water =>
    feasible({ ...likely, ...ease[end], ph, totalAlkalinity, combinedChlorine: combined });
  const { ph, 'total-alkalinity': alkalinity, 'combined-chlorine': combined } = known;
  const easy = { volumeLitres: volume.low };
  const hard = { volumeLitres: volume.high };
  return {
    likely: { water: likely, volumeLitres: volume.value },
    easyLow: { water: at(ph.low, alkalinity.low, 'easy', combined?.low ?? 0), ...easy },
    easyHigh: { water: at(ph.high, alkalinity.low, 'easy', combined?.low ?? 0), ...easy },
    hardLow: { water: at(ph.low, alkalinity.high, 'hard', combined?.high ?? 0), ...hard },
    hardHigh: { water: at(ph.high, alkalinity.high, 'hard', combined?.high ?? 0), ...hard },
  };
}

/** For each lesser reading, which end makes the pH move more: judged by the buffer intensity at the likeliest water. */
function easiest(likely: Water, lesser: Record<LesserReading, Span>) {
  const easy: Partial<Record<LesserReading, number>> = {};
  const hard: Partial<Record<LesserReading, number>> = {};
  for (const [name, { low, high }] of Object.entries(lesser) as [LesserReading, Span][]) {
    const lowIsEasy = low === high || buffering({ ...likely, [name]: low }) <= buffering({ ...likely, [name]: high });
    easy[name] = lowIsEasy ? low : high;
    hard[name] = lowIsEasy ? high : low;
  }
  return { easy, hard };
}

/** Alkalinity it takes for a tenth of a pH down, carbon kept. */
function buffering(water: Water): number {
  try {
    const at = constantsAt(water.temperatureC);
    const background = backgroundOf(measuredContents(water));
    const { inorganicCarbon, alkalinity } = speciate(water, at);
    return alkalinity - compose(water.ph - 0.1, background, { inorganicCarbon }, at).alkalinity;
  } catch (error) {
    if (error instanceof WaterError) return 0;
    throw error;
  }
}

/** A corner of the spans may be no water at all: then the alkalinity rises until it is one. */
function feasible(water: Water): Water {
  for (let raised = water; ; raised = { ...raised, totalAlkalinity: raised.totalAlkalinity + 1 }) {
    try {
      speciate(raised);
      return raised;
    } catch (error) {
      if (!(error instanceof WaterError) || raised.totalAlkalinity > water.totalAlkalinity + 400) throw error;
    }
  }
}
