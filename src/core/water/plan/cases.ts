/**
 * The waters that the readings allow, as seven cases carried through the whole plan: the likeliest, and six at the ends
 * of the spans. The two easy ones have the least alkalinity, and every lesser reading at the end that makes the pH
 * move most; the two hard ones the opposite; each pair has one case at either end of the pH. The lean one has the least
 * of everything in the largest pool, the rich one the most in the smallest. Together they bound what any addition can
 * do, as long as the pH answers to each reading in one direction over its span.
 */
import { add, addLiquidChlorine } from '../moves/add.ts';
import { addThiosulfate } from '../moves/chlorine.ts';
import { backgroundOf, compose, constantsAt } from '../composition.ts';
import { speciate } from '../equilibrium.ts';
import { WaterError } from '../errors.ts';
import type { Move } from '../products.ts';
import { ALKALINITY_PER_MMOL, measuredContents, waterOf, type Water } from '../water.ts';
import type { KnownWater } from './known.ts';
import type { Span } from './spanned.ts';

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
  readonly lean: WaterCase;
  readonly rich: WaterCase;
}

export const CASE_NAMES = ['likely', 'easyLow', 'easyHigh', 'hardLow', 'hardHigh', 'lean', 'rich'] as const;

export function mapCases(cases: Cases, change: (one: WaterCase) => Water): Cases {
  const next = (one: WaterCase): WaterCase => ({ ...one, water: change(one) });
  return {
    likely: next(cases.likely),
    easyLow: next(cases.easyLow),
    easyHigh: next(cases.easyHigh),
    hardLow: next(cases.hardLow),
    hardHigh: next(cases.hardHigh),
    lean: next(cases.lean),
    rich: next(cases.rich),
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
  const likely = salted(
    waterOf({
      ph: known.ph.value,
      totalAlkalinity: known['total-alkalinity'].value,
      calciumHardness: known['calcium-hardness'].value,
      temperatureC: known.temperature.value,
      salt: known.salt.value,
      cyanuricAcid: known['cyanuric-acid'].value,
      boron: known.boron.value,
      freeChlorine: known['free-chlorine'].value,
      combinedChlorine: known['combined-chlorine']?.value ?? 0,
    }),
  );
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
  const { ph, 'total-alkalinity': alkalinity, 'combined-chlorine': combined } = known;
  const at = (phEnd: number, totalAlkalinity: number, others: Partial<Water>, volumeLitres: number): WaterCase => ({
    water: feasible(salted({ ...likely, ...others, ph: phEnd, totalAlkalinity })),
    volumeLitres,
  });
  const least = { ...endsOf(lesser, 'low'), combinedChlorine: combined?.low ?? 0 };
  const most = { ...endsOf(lesser, 'high'), combinedChlorine: combined?.high ?? 0 };
  return {
    likely: { water: likely, volumeLitres: volume.value },
    easyLow: at(ph.low, alkalinity.low, ease.easy, volume.low),
    easyHigh: at(ph.high, alkalinity.low, ease.easy, volume.low),
    hardLow: at(ph.low, alkalinity.high, ease.hard, volume.high),
    hardHigh: at(ph.high, alkalinity.high, ease.hard, volume.high),
    lean: at(ph.value, alkalinity.low, least, volume.high),
    rich: at(ph.value, alkalinity.high, most, volume.low),
  };
}

/** Chlorine is counted with the salt that it turns into: no water has less of that. */
function salted(water: Water): Water {
  return { ...water, salt: Math.max(water.salt, MIN_SALT + water.freeChlorine) };
}

/** mg/L; even tap water has some. */
const MIN_SALT = 20;

function endsOf(lesser: Record<LesserReading, Span>, end: 'low' | 'high'): Partial<Water> {
  return Object.fromEntries(Object.entries(lesser).map(([name, span]) => [name, span[end]]));
}

/** For each lesser reading, which end makes the pH move more on the way it may have to go. */
function easiest(likely: Water, lesser: Record<LesserReading, Span>) {
  const easy: Partial<Record<LesserReading, number>> = {};
  const hard: Partial<Record<LesserReading, number>> = {};
  const down = likely.ph > (WAY_DOWN + WAY_UP) / 2;
  const demand = (reading: LesserReading, value: number) => buffering({ ...likely, [reading]: value }, down);
  for (const [name, { low, high }] of Object.entries(lesser) as [LesserReading, Span][]) {
    const lowIsEasy = low === high || demand(name, low) <= demand(name, high);
    easy[name] = lowIsEasy ? low : high;
    hard[name] = lowIsEasy ? high : low;
  }
  return { easy, hard };
}

/** mg/L of alkalinity that every plan sees to. */
const RAISED = 70;
/** The pH a high one goes down to, and a low one up to. */
const WAY_DOWN = 7.3;
const WAY_UP = 7.6;

/** Acid or base that it takes to go the way, carbon kept; a low alkalinity is raised with bicarbonate first. */
function buffering(start: Water, down: boolean): number {
  try {
    const lack = Math.max(0, RAISED - start.totalAlkalinity) / ALKALINITY_PER_MMOL;
    const water = lack > 0 ? add(start, 'sodium-bicarbonate', lack) : start;
    const at = constantsAt(water.temperatureC);
    const background = backgroundOf(measuredContents(water));
    const { inorganicCarbon, alkalinity } = speciate(water, at);
    const there = compose(down ? WAY_DOWN : WAY_UP, background, { inorganicCarbon }, at).alkalinity;
    return down ? alkalinity - there : there - alkalinity;
  } catch (error) {
    // No water at all: never the easiest one.
    if (error instanceof WaterError) return Infinity;
    throw error;
  }
}

/** A corner of the spans may be no water at all: then the alkalinity is what its other acids alone make, and a little. */
function feasible(water: Water): Water {
  const at = constantsAt(water.temperatureC);
  let raised = water;
  for (let margin = MIN_CARBONATE; ; margin *= 2) {
    const measured = measuredContents(raised);
    const found = compose(water.ph, backgroundOf(measured), measured, at);
    if (found.inorganicCarbon > 0) return raised;
    if (!(margin < MAX_CARBONATE)) throw new WaterError('contradictory');
    const others = 1000 * ALKALINITY_PER_MMOL * (found.alkalinity - found.carbonateAlkalinity);
    raised = { ...water, totalAlkalinity: others + margin };
  }
}

/** mg/L of alkalinity as carbonate in a corner that would have none. */
const MIN_CARBONATE = 2;
const MAX_CARBONATE = 1000;
